#include "sim/studio/stored_distribution.h"

#include "sim/photometry/photometric_file.h"
#include "sim/shape/content_key.h"

#include <algorithm>
#include <system_error>

namespace keystead {

namespace {

namespace fs = std::filesystem;

/// What is not there has size and time zero.
std::uint64_t key_of(const fs::path& path, double turn_deg) {
    std::error_code failed;
    const std::uintmax_t size = fs::file_size(path, failed);
    const bool has_size = !failed;
    const auto time = fs::last_write_time(path, failed);
    return ContentKey()
        .add("distribution")
        .add(path.string())
        .add(has_size ? static_cast<std::uint64_t>(size) : std::uint64_t{0})
        .add(failed ? std::uint64_t{0}
                    : static_cast<std::uint64_t>(time.time_since_epoch().count()))
        .add(turn_deg)
        .value();
}

} // namespace

std::shared_ptr<const StoredDistribution> stored_distribution(const PhotometricFile& file,
                                                              const fs::path& folder,
                                                              const StoredDistributions& kept) {
    const fs::path given(file.path);
    const fs::path path = given.is_absolute() ? given : folder / given;
    const std::uint64_t key = key_of(path, file.turn_deg);
    const auto same =
        std::find_if(kept.begin(), kept.end(), [key](const auto& one) { return one->key == key; });
    if (same != kept.end()) return *same;
    auto made = std::make_shared<StoredDistribution>();
    made->key = key;
    const Result<Distribution> read = read_photometric_file(path);
    if (!read) {
        made->problem = read.problem();
        return made;
    }
    made->table = direction_table(read.value(), file.turn_deg, key);
    if (made->table == nullptr)
        made->problem = Problem{path.filename().string(), "", "holds no light at all"};
    return made;
}

} // namespace keystead
