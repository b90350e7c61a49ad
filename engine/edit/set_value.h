// Commands that replace one value, spelled once: paths as in the document, values as JSON text.
#pragma once

#include "engine/edit/command.h"

#include <string>

namespace keystead {

/// Tenths of millimetres and ten-thousandths of a degree are finer than anyone sets a stand; drags
/// would else leave fifteen digits in the file.
double tidy(double value);

Command set_number(std::string path, double value);
Command set_point(const std::string& path, const Vec3& point_m);
/// A place on the floor: x and z.
Command set_place(const std::string& path, const Vec2& place_m);

} // namespace keystead
