// Loading and saving files of the document.
#include "sim/set/json_text.h"
#include "sim/set/set_io.h"

#include <array>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace keystead {

namespace fs = std::filesystem;

namespace {

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

bool write_all(int file, const std::string& text) {
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

Outcome write_beside(const fs::path& temporary, const fs::path& target, const std::string& text) {
    struct stat old {};
    const mode_t mode = ::stat(target.c_str(), &old) == 0 ? (old.st_mode & 0777U) : 0644U;
    const Descriptor file(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode));
    if (!file.ok()) return system_problem(target, "cannot be written");
    if (write_all(file.number(), text)) return {};
    const Problem problem = system_problem(target, "could not be written in full");
    ::unlink(temporary.c_str());
    return problem;
}

} // namespace

Result<LoadedSet> load_set(const fs::path& file) {
    std::error_code error;
    const fs::file_status status = fs::status(file, error);
    if (!fs::exists(status)) return Problem{file.string(), "", "no such file"};
    if (!fs::is_regular_file(status)) return Problem{file.string(), "", "is not a regular file"};
    if (fs::file_size(file, error) > json_max_bytes && !error)
        return Problem{file.string(), "", "is more than 16 MiB"};
    std::ifstream stream(file, std::ios::binary);
    if (!stream) return Problem{file.string(), "", "cannot be read"};
    std::string text;
    std::array<char, 1U << 16U> piece{};
    while (text.size() <= json_max_bytes && stream) {
        stream.read(piece.data(), piece.size());
        text.append(piece.data(), static_cast<std::size_t>(stream.gcount()));
    }
    if (stream.bad()) return Problem{file.string(), "", "cannot be read to its end"};
    Result<LoadedSet> loaded = parse_set(text);
    if (loaded) return loaded;
    Problem problem = loaded.problem();
    problem.path = file.string() + (problem.path.empty() ? "" : ": " + problem.path);
    return problem;
}

Outcome save_set(const Set& set, const fs::path& file) {
    if (Outcome problem = validate(set)) return problem;
    std::error_code error;
    // Through a link, so that saving replaces the file it points to and not the link.
    const bool linked = fs::is_symlink(fs::symlink_status(file, error));
    const fs::path target = linked ? fs::weakly_canonical(file, error) : file;
    if (fs::is_directory(target, error)) return Problem{file.string(), "", "is a folder"};
    const fs::path temporary = target.string() + ".saving-" + std::to_string(::getpid());
    ::unlink(temporary.c_str());
    if (Outcome problem = write_beside(temporary, target, write_set(set))) return problem;
    if (!keep_previous(target) || ::rename(temporary.c_str(), target.c_str()) != 0) {
        const Problem problem = system_problem(target, "could not be replaced");
        ::unlink(temporary.c_str());
        return problem;
    }
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
    const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (directory.ok()) ::fsync(directory.number());
    return {};
}

} // namespace keystead
