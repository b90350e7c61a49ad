// Photometric files: ANSI/IES LM-63 (1986, 1991, 1995, 2002, 2019) and EULUMDAT (.ldt).
//
// Formats after several public format descriptions and parsers; the standards' own texts were not
// seen. What is legal is read; anything else gives one line with file, line and what was expected.
#pragma once

#include "sim/base/result.h"
#include "sim/photometry/distribution.h"

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

namespace keystead {

/// Gives the text of a file named beside the one being read (LM-63 `TILT=name`), or a problem.
using SiblingText = std::function<Result<std::string>(const std::string& name)>;

/// The kind is told by the content. At most 16 MiB; nothing outside the file's folder is opened.
Result<Distribution> read_photometric_file(const std::filesystem::path& file);

/// `name` is what messages call the file.
Result<Distribution> parse_photometric(std::string_view text, const std::string& name,
                                       const SiblingText& sibling = {});
Result<Distribution> parse_lm63(std::string_view text, const std::string& name,
                                const SiblingText& sibling = {});
Result<Distribution> parse_eulumdat(std::string_view text, const std::string& name);

/// Planes that an EULUMDAT file of `planes` C-planes stores for a symmetry 0..4.
int eulumdat_stored_planes(int symmetry, int planes);

} // namespace keystead
