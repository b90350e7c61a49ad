// What a glTF file may refer to: data in the text itself, or a file in its own folder or below.
// RFC 3986 (percent-encoding), RFC 2397 (data), RFC 4648 §4 (base64); glTF 2.0 §2.8 "URIs".
#pragma once

#include "sim/import/file_bytes.h"

#include <optional>
#include <string>
#include <string_view>

namespace keystead::importing {

/// `%20` and the like as bytes; a percent sign without two digits stays as it is.
std::string percent_decoded(std::string_view text);

bool is_data_uri(std::string_view uri);

/// Bytes of a base64 data URI; nothing if it is not base64.
std::optional<Bytes> decode_data_uri(std::string_view uri);

/// The file a relative reference means: inside `folder` or below, links followed. The problem says
/// why a reference is refused: another scheme, an absolute path, a way out of the folder. Nothing
/// is opened here. Writers that forget to encode a percent sign are understood.
Result<std::filesystem::path> file_in_folder(std::string_view uri,
                                             const std::filesystem::path& folder,
                                             const Blame& blame, std::string_view place);

} // namespace keystead::importing
