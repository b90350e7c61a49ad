// Rules of the document that tie several fields together.
#pragma once

#include "sim/base/result.h"
#include "sim/set/set.h"

#include <array>
#include <string>

namespace keystead {

/// Names that a finding uses for things that are not lights or panels.
inline constexpr std::array<const char*, 6> reserved_ids{"room",   "background", "subject",
                                                         "camera", "set",        "face"};

/// Ranges of one support and its parts against each other; `path` goes before the field's name.
Outcome support_rules(const Support& support, const std::string& path);
Outcome modifier_rules(const Modifier& modifier, const std::string& path);
Outcome head_rules(const Head& head, const std::string& path);

/// The whole document's: the above for every light, ids, camera, room.
Outcome cross_field_rules(const Set& set);

} // namespace keystead
