#include "sim/base/safe_file.h"

#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstring>
#include <fcntl.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace keystead {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view temporary_mark = ".saving-"; ///< then the process

Problem system_problem(const fs::path& file, const char* what) {
    return {file.string(), "", std::string(what) + ": " + std::strerror(errno)};
}

/// A file descriptor that closes itself.
class Descriptor {
public:
    explicit Descriptor(int number)
        : number_(number) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    bool ok() const { return number_ >= 0; }
    int number() const { return number_; }

private:
    int number_;
};

bool write_all(int file, std::string_view text) {
    std::size_t done = 0;
    while (done < text.size()) {
        const ssize_t written = ::write(file, text.data() + done, text.size() - done);
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) return false;
        done += static_cast<std::size_t>(written);
    }
    return ::fsync(file) == 0;
}

/// Keeps the old version as FILE~: a second name for the same content where the file system can,
/// else a copy. The old file itself stays in place until the rename.
bool keep_previous(const fs::path& file) {
    std::error_code error;
    if (!fs::exists(file, error)) return true;
    const fs::path kept = file.string() + "~";
    fs::remove(kept, error);
    fs::create_hard_link(file, kept, error);
    if (!error) return true;
    fs::copy_file(file, kept, fs::copy_options::overwrite_existing, error);
    return !error;
}

Outcome write_beside(const fs::path& temporary, const fs::path& target, std::string_view text) {
    struct stat old {};
    const mode_t mode = ::stat(target.c_str(), &old) == 0 ? (old.st_mode & 0777U) : 0644U;
    const Descriptor file(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode));
    if (!file.ok()) return system_problem(target, "cannot be written");
    if (write_all(file.number(), text)) return {};
    const Problem problem = system_problem(target, "could not be written in full");
    ::unlink(temporary.c_str());
    return problem;
}

fs::path folder_of(const fs::path& file) {
    return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

/// A temporary file's process ended, so that nobody will rename it any more.
bool is_stray(std::string_view name, std::string_view prefix) {
    const std::size_t mark = name.rfind(temporary_mark);
    if (mark == std::string_view::npos || name.substr(0, prefix.size()) != prefix) return false;
    const std::string_view digits = name.substr(mark + temporary_mark.size());
    pid_t process = 0;
    const auto [end, error] = std::from_chars(digits.begin(), digits.end(), process);
    if (error != std::errc() || end != digits.end() || process <= 0) return false;
    return ::kill(process, 0) != 0 && errno == ESRCH;
}

} // namespace

void remove_strays(const fs::path& folder, std::string_view prefix) {
    std::error_code error;
    for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error))
        if (is_stray(it->path().filename().string(), prefix)) ::unlink(it->path().c_str());
}

Outcome write_safely(const fs::path& file, std::string_view text, Previous previous) {
    std::error_code error;
    const bool linked = fs::is_symlink(fs::symlink_status(file, error));
    const fs::path target = linked ? fs::weakly_canonical(file, error) : file;
    if (fs::is_directory(target, error)) return Problem{file.string(), "", "is a folder"};
    const fs::path temporary =
        target.string() + std::string(temporary_mark) + std::to_string(::getpid());
    ::unlink(temporary.c_str());
    if (Outcome problem = write_beside(temporary, target, text)) return problem;
    const bool kept = previous == Previous::dropped || keep_previous(target);
    if (!kept || ::rename(temporary.c_str(), target.c_str()) != 0) {
        const Problem problem = system_problem(target, "could not be replaced");
        ::unlink(temporary.c_str());
        return problem;
    }
    const Descriptor folder(::open(folder_of(target).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (folder.ok()) ::fsync(folder.number());
    remove_strays(folder_of(target), target.filename().string() + std::string(temporary_mark));
    return {};
}

} // namespace keystead
