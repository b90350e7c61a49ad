// Shader texts from the shaders folder, with #include "name" replaced by that file's text.
#pragma once

#include "sim/base/result.h"

#include <filesystem>
#include <string>

namespace keystead {

/// $KEYSTEAD_SHADERS, else share/keystead/shaders of the installation, else the source tree.
std::filesystem::path shader_folder();

/// The text of `name` below `folder`; each file is included at most once.
Result<std::string> shader_source(const std::filesystem::path& folder, const std::string& name);

} // namespace keystead
