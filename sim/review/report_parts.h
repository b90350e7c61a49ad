// Small pieces that the report's parts share.
#pragma once

#include "sim/base/vec.h"
#include "sim/set/json_text.h"
#include "sim/support/stability.h"

#include <optional>
#include <string>

namespace keystead {

/// Four decimals: finer is noise, and diffs stay readable. Null for what is not a number.
Json tidy(double value);
Json tidy(const std::optional<double>& value);
Json tidy(const Vec3& v);
Json text_or_null(const std::string& text);

const char* word_of(Verdict verdict); ///< stable, caution, unstable

/// Left-aligned in `width` columns; counts characters, not bytes.
std::string padded(const std::string& text, std::size_t width);

} // namespace keystead
