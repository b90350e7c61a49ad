// Which files of a folder this process, or any other, opens: asked of the kernel, not of our code.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace testing {

class FolderWatch {
public:
    /// Linux inotify(7). A folder that cannot be watched fails the test.
    explicit FolderWatch(const std::filesystem::path& folder);
    ~FolderWatch();
    FolderWatch(const FolderWatch&) = delete;
    FolderWatch& operator=(const FolderWatch&) = delete;

    /// Names opened since the last call, each once, sorted.
    std::vector<std::string> opened() const;

private:
    int descriptor_ = -1;
};

} // namespace testing
