#include "sim/set/set_io.h"
#include "tests/sim/set/example_set.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <unistd.h>

using namespace keystead;
namespace fs = std::filesystem;

namespace {

/// An empty folder that is removed afterwards.
struct Folder {
    fs::path path = fs::temp_directory_path() / ("keystead-save-" + std::to_string(::getpid()));
    Folder() { fs::create_directories(path); }
    ~Folder() { fs::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
};

std::string content(const fs::path& file) {
    std::ifstream stream(file);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

std::size_t files_in(const fs::path& folder) {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

} // namespace

TEST_CASE("Saving replaces the file, keeps the previous one and leaves nothing else",
          "[set][save]") {
    const Folder folder;
    const fs::path file = folder.path / "set.json";
    Set set = example::set();
    REQUIRE_FALSE(save_set(set, file));
    CHECK(content(file) == write_set(set));
    CHECK(files_in(folder.path) == 1);
    const std::string first = content(file);
    for (int i = 0; i < 2; ++i) {
        set.name += "!";
        REQUIRE_FALSE(save_set(set, file));
    }
    CHECK(load_set(file).value().set.name == "bench by the window!!");
    CHECK(load_set(file.string() + "~").value().set.name == "bench by the window!");
    CHECK(files_in(folder.path) == 2);
}

TEST_CASE("A set that breaks its rules is not written over a good file", "[set][save]") {
    const Folder folder;
    const fs::path file = folder.path / "set.json";
    Set set = example::set();
    REQUIRE_FALSE(save_set(set, file));
    const std::string before = content(file);
    set.lights[0].support.arm->reach_m = 9.0;
    const Outcome problem = save_set(set, file);
    REQUIRE(problem);
    CHECK(problem->path == "lights[0].support.arm.reach_m");
    CHECK(content(file) == before);
    CHECK(files_in(folder.path) == 1);
}

TEST_CASE("Saving through a link changes the file it points to", "[set][save]") {
    const Folder folder;
    const fs::path file = folder.path / "real.json", link = folder.path / "link.json";
    REQUIRE_FALSE(save_set(example::set(), file));
    fs::create_symlink(file, link);
    Set set = example::set();
    set.name = "through the link";
    REQUIRE_FALSE(save_set(set, link));
    CHECK(fs::is_symlink(link));
    CHECK(load_set(file).value().set.name == "through the link");
}

TEST_CASE("Saving where nothing can be written says so", "[set][save]") {
    const Outcome problem = save_set(example::set(), "/proc/keystead.json");
    REQUIRE(problem);
    CHECK(problem->message().find("/proc/keystead.json: cannot be written") == 0);
    CHECK(save_set(example::set(), "/tmp"));
}
