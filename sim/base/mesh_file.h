// What a mesh file from elsewhere may be in, and show.
#pragma once

#include <cstdint>

namespace keystead {

enum class LengthUnit : std::uint8_t { millimetre, centimetre, metre, inch, foot };
enum class UpAxis : std::uint8_t { x, y, z };
/// What a mesh of a person may show.
enum class PersonPart : std::uint8_t { head, bust, figure };

} // namespace keystead
