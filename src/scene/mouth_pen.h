#pragma once

#include "scene/mouth.h"

namespace mw {

/// What the steps of a mouth picture share: where it is drawn, with what, and the lines' weights.
struct MouthPen {
  Canvas& canvas;
  const Theme& theme;
  const MouthView& view;
  MouthFrame frame;
  const Section& s;
  double thin, wall, heavy; // L1, L2, L3 of the visual design, section 3

  void fill(const char* role, const Polyline& ring, Paint paint) const { canvas.fill({role, {}}, frame.path(ring, true), std::move(paint)); }
  void stroke(const char* role, const Polyline& line, Colour colour, double width, bool closed = false, std::vector<double> dashes = {}) const {
    canvas.stroke({role, {}}, frame.path(line, closed), colour, width, std::move(dashes));
  }
  void piece(const char* role, const Polyline& ring, Colour paper, Colour edge, double width) const {
    fill(role, ring, paper);
    stroke(role, ring, edge, width, true);
  }
  /// Shadow of a piece of paper on what lies behind it: widening faint strokes, shifted; drawn before the piece.
  void shadow(const Polyline& ring, double reach_mm, double strength = 1) const;
};

Polyline points_of(std::initializer_list<Vec2> points);

void draw_clash_band(const MouthPen& pen, const ClashBand& clash, const Polyline& outer, const Polyline& inner);
void draw_clash_edge(const MouthPen& pen, const ClashBand& clash, const Polyline& outer, const Polyline& inner);
void draw_spotlight_veil(const MouthPen& pen, const Outline& outline);
void draw_ghosts(const MouthPen& pen);
void draw_air(const MouthPen& pen, const Anatomy& anatomy, const Outline& outline, const Pose& pose);

} // namespace mw
