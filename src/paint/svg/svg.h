#pragma once

#include "scene/scene.h"

#include <string>

namespace mw {

/// The scene as SVG 1.1 text, sizes in px. Every mark carries its role as class and its id as data-id. Letters are drawn
/// as outlines (the same glyphs everywhere) with the text itself, unseen, over them: it can be selected, found and read out.
std::string svg_of(const Scene& scene, const std::string& title);

/// Text with the five signs of XML escaped and control characters left out.
std::string xml_escaped(const std::string& text);

} // namespace mw
