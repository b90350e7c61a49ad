#include "sim/set/catalogue.h"

#include <cstdlib>
#include <system_error>

namespace keystead {

std::filesystem::path assets_folder() {
    namespace fs = std::filesystem;
    if (const char* folder = std::getenv("KEYSTEAD_ASSETS"); folder != nullptr && *folder != '\0')
        return folder;
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    if (!error) {
        const fs::path installed = program.parent_path() / ".." / "share" / "keystead" / "assets";
        if (fs::exists(installed / "catalogue.json", error)) return installed;
    }
    return KEYSTEAD_SOURCE_ASSETS;
}

} // namespace keystead
