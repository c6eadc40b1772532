#include "paint/svg/svg.h"

#include "base/text.h"
#include "text/shaper.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace mw {
namespace {

std::string num(double v) { return to_text(v, 2); }

std::string hex(Colour c) {
  std::string out = "#";
  for (const float v : {c.r, c.g, c.b}) {
    const int q = static_cast<int>(std::lround(static_cast<double>(std::clamp(v, 0.0f, 1.0f)) * 255));
    out += "0123456789abcdef"[q / 16];
    out += "0123456789abcdef"[q % 16];
  }
  return out;
}

std::string coloured(const std::string& attribute, Colour c) {
  return " " + attribute + "=\"" + hex(c) + "\"" + (c.a < 1 ? " " + attribute + "-opacity=\"" + to_text(static_cast<double>(c.a), 3) + "\"" : "");
}

std::string path_data(const Path& path, int places = 2) {
  std::string d;
  const auto p = [&](Vec2 v) { return to_text(v.x, places) + " " + to_text(v.y, places); };
  for (const auto& step : path.steps)
    std::visit(Overloaded{[&](const Path::Move& s) { d += "M" + p(s.to); }, [&](const Path::Line& s) { d += "L" + p(s.to); },
                          [&](const Path::Cubic& s) { d += "C" + p(s.c1) + " " + p(s.c2) + " " + p(s.to); }, [&](const Path::Close&) { d += "Z"; }}, step);
  return d;
}

struct Writer {
  std::string defs, body;
  int next = 0;
  std::set<std::pair<std::size_t, unsigned>> known_glyphs;

  std::string new_id(const char* kind) { return std::string{kind} + to_text(next++); }
  static std::string named(const MarkId& m) {
    std::string out;
    if (!m.role.empty()) out += " class=\"" + xml_escaped(m.role) + "\"";
    if (!m.id.empty()) out += " data-id=\"" + xml_escaped(m.id) + "\"";
    return out;
  }

  std::string stops(const std::vector<std::pair<double, Colour>>& list, double from, double to) const {
    std::string out;
    for (const auto& [at, c] : list) out += "<stop offset=\"" + to_text(from + (to - from) * at, 4) + "\"" + coloured("stop-color", c) + "/>";
    return replace_all(out, "stop-color-opacity", "stop-opacity");
  }

  std::string paint(const Colour& c) { return coloured("fill", c); }
  std::string paint(const RadialBlend& b) {
    const std::string id = new_id("blend");
    defs += "<radialGradient id=\"" + id + "\" gradientUnits=\"userSpaceOnUse\" cx=\"" + num(b.centre.x) + "\" cy=\"" + num(b.centre.y) + "\" r=\"" + num(b.outer) + "\">" +
            stops(b.stops, b.outer > 0 ? b.inner / b.outer : 0, 1) + "</radialGradient>\n";
    return " fill=\"url(#" + id + ")\"";
  }
  std::string paint(const LinearBlend& b) {
    const std::string id = new_id("blend");
    defs += "<linearGradient id=\"" + id + "\" gradientUnits=\"userSpaceOnUse\" x1=\"" + num(b.from.x) + "\" y1=\"" + num(b.from.y) + "\" x2=\"" + num(b.to.x) + "\" y2=\"" + num(b.to.y) + "\">" +
            stops(b.stops, 0, 1) + "</linearGradient>\n";
    return " fill=\"url(#" + id + ")\"";
  }
  std::string paint(const Hatch& h) {
    const std::string id = new_id("hatch"), pitch = num(h.pitch), half = num(h.pitch / 2);
    const double dash = 3.2 * h.width;
    const std::string wide = num(h.broken ? 2 * dash : h.pitch);
    defs += "<pattern id=\"" + id + "\" patternUnits=\"userSpaceOnUse\" width=\"" + wide + "\" height=\"" + pitch + "\" patternTransform=\"rotate(" + num(h.angle_deg) + ")\">";
    if (h.ground.a > 0) defs += "<rect width=\"" + wide + "\" height=\"" + pitch + "\"" + coloured("fill", h.ground) + "/>";
    defs += "<path d=\"M0 " + half + "H" + num(h.broken ? dash : h.pitch) + (h.crossed ? "M" + half + " 0V" + pitch : "") + "\" fill=\"none\"" + coloured("stroke", h.line) + " stroke-width=\"" + num(h.width) + "\"/></pattern>\n";
    return " fill=\"url(#" + id + ")\"";
  }
  std::string paint(const Dots& d) {
    const std::string id = new_id("dots"), pitch = num(d.pitch), half = num(d.pitch / 2);
    defs += "<pattern id=\"" + id + "\" patternUnits=\"userSpaceOnUse\" width=\"" + pitch + "\" height=\"" + pitch + "\">";
    if (d.ground.a > 0) defs += "<rect width=\"" + pitch + "\" height=\"" + pitch + "\"" + coloured("fill", d.ground) + "/>";
    defs += "<circle cx=\"" + half + "\" cy=\"" + half + "\" r=\"" + num(d.radius) + "\"" + coloured("fill", d.dot) + "/></pattern>\n";
    return " fill=\"url(#" + id + ")\"";
  }

  void operator()(const Fill& f) {
    const std::string how = std::visit([&](const auto& p) { return paint(p); }, f.paint);
    body += "<path" + named(f.mark) + how + (f.even_odd ? " fill-rule=\"evenodd\"" : "") + " d=\"" + path_data(f.path) + "\"/>\n";
  }
  void operator()(const Stroke& s) {
    std::string dashes;
    for (const double d : s.dashes) dashes += (dashes.empty() ? "" : " ") + num(d);
    body += "<path" + named(s.mark) + " fill=\"none\"" + coloured("stroke", s.colour) + " stroke-width=\"" + num(s.width) + "\"" +
            (dashes.empty() ? "" : " stroke-dasharray=\"" + dashes + "\"") + " d=\"" + path_data(s.path) + "\"/>\n";
  }
  void operator()(const Text& t) {
    const auto line = shape_line(t.text, t.bold);
    const double width = line->width * t.size, x = t.at.x - (t.anchor == Anchor::start ? 0 : t.anchor == Anchor::middle ? width / 2 : width);
    std::string uses;
    for (const PlacedGlyph& g : line->glyphs) {
      if (g.shape->steps.empty()) continue;
      const std::string id = "g" + to_text(static_cast<int>(g.face)) + "-" + to_text(static_cast<int>(g.glyph));
      if (known_glyphs.emplace(g.face, g.glyph).second) defs += "<path id=\"" + id + "\" d=\"" + path_data(*g.shape, 4) + "\"/>\n";
      uses += "<use xlink:href=\"#" + id + "\" x=\"" + to_text(g.at.x, 4) + "\" y=\"" + to_text(g.at.y, 4) + "\"/>";
    }
    const std::string place = "<g transform=\"translate(" + num(x) + " " + num(t.at.y) + ") scale(" + num(t.size) + ")\"";
    body += "<g" + named(t.mark) + ">";
    if (t.halo > 0) body += place + " fill=\"none\"" + coloured("stroke", t.halo_colour) + " stroke-width=\"" + to_text(t.halo / t.size, 4) + "\">" + uses + "</g>";
    body += place + coloured("fill", t.colour) + ">" + uses + "</g>";
    body += "<text x=\"" + num(x) + "\" y=\"" + num(t.at.y) + "\" font-size=\"" + num(t.size) + "\" textLength=\"" + num(width) +
            "\" lengthAdjust=\"spacingAndGlyphs\" fill-opacity=\"0\"" + (t.bold ? " font-weight=\"bold\"" : "") + ">" + xml_escaped(t.text) + "</text></g>\n";
  }
  void operator()(const Image&) {} // no picture of ours that goes to SVG holds pixels
  void operator()(const Group& g) {
    std::string clip;
    if (g.clip) {
      const std::string id = new_id("clip");
      defs += "<clipPath id=\"" + id + "\"><path d=\"" + path_data(*g.clip) + "\"/></clipPath>\n";
      clip = " clip-path=\"url(#" + id + ")\"";
    }
    const bool moved = g.a != 1 || g.b != 0 || g.c != 0 || g.d != 1 || g.tx != 0 || g.ty != 0;
    body += "<g" + named(g.mark) + (moved ? " transform=\"matrix(" + to_text(g.a, 5) + " " + to_text(g.b, 5) + " " + to_text(g.c, 5) + " " + to_text(g.d, 5) + " " + num(g.tx) + " " + num(g.ty) + ")\"" : "") +
            clip + (g.opacity < 1 ? " opacity=\"" + to_text(g.opacity, 3) + "\"" : "") + ">\n";
    for (const Mark& m : g.marks) std::visit(*this, m);
    body += "</g>\n";
  }
};

} // namespace

std::string xml_escaped(const std::string& text) {
  std::string out;
  for (const char c : text) switch (c) {
      case '&': out += "&amp;"; break;
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '"': out += "&quot;"; break;
      case '\'': out += "&#39;"; break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20) out += c;
    }
  return out;
}

std::string svg_of(const Scene& scene, const std::string& title) {
  Writer writer;
  for (const Mark& mark : scene.marks) std::visit(writer, mark);
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.1\" width=\"" +
                    num(scene.width) + "\" height=\"" + num(scene.height) + "\" viewBox=\"0 0 " + num(scene.width) + " " + num(scene.height) +
                    "\" stroke-linecap=\"round\" stroke-linejoin=\"round\" font-family=\"Andika, 'Charis SIL', sans-serif\">\n<title>" + xml_escaped(title) + "</title>\n<defs>\n" + writer.defs + "</defs>\n";
  if (scene.ground.a > 0) out += "<rect width=\"100%\" height=\"100%\"" + coloured("fill", scene.ground) + "/>\n";
  return out + writer.body + "</svg>\n";
}

} // namespace mw
