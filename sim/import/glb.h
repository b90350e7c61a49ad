// The GLB container: glTF 2.0 specification §4, "GLB File Format Specification".
#pragma once

#include "sim/import/file_bytes.h"

#include <optional>
#include <string_view>

namespace keystead::importing {

/// Views into the container's bytes.
struct GlbChunks {
    std::string_view json;
    std::optional<ByteView> binary; ///< absent: no BIN chunk
};

bool is_glb(ByteView start);

/// Splits a container. All lengths are compared by subtraction in 64 bits, so that a length near
/// 2^32 cannot wrap. Unknown chunks after the first are skipped, as §4.4.1 asks.
Result<GlbChunks> split_glb(ByteView file, const Blame& blame);

} // namespace keystead::importing
