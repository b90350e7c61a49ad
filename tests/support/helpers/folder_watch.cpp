#include "support/helpers/folder_watch.h"

#include <array>
#include <catch2/catch.hpp>
#include <cstddef>
#include <cstring>
#include <set>
#include <sys/inotify.h>
#include <unistd.h>

namespace testing {

FolderWatch::FolderWatch(const std::filesystem::path& folder)
    : descriptor_(inotify_init1(IN_NONBLOCK | IN_CLOEXEC)) {
    REQUIRE(descriptor_ >= 0);
    REQUIRE(inotify_add_watch(descriptor_, folder.c_str(), IN_OPEN | IN_ACCESS) >= 0);
}

FolderWatch::~FolderWatch() {
    close(descriptor_);
}

std::vector<std::string> FolderWatch::opened() const {
    std::set<std::string> names;
    std::array<char, 16'384> bytes{};
    for (ssize_t got = 0; (got = read(descriptor_, bytes.data(), bytes.size())) > 0;)
        for (std::size_t at = 0; at < static_cast<std::size_t>(got);) {
            inotify_event event{};
            std::memcpy(&event, bytes.data() + at, sizeof event);
            // Without a name it is the folder itself, listed but not read.
            if (event.len > 0) names.insert(bytes.data() + at + sizeof event);
            at += sizeof event + event.len;
        }
    return {names.begin(), names.end()};
}

} // namespace testing
