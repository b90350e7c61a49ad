#include "support/helpers/run.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <sys/wait.h>

namespace testing {

std::string read_text(const std::string& file) {
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

void write_text(const std::string& file, const std::string& text) {
    std::ofstream(file, std::ios::binary) << text;
}

std::string scratch_folder(const std::string& name) {
    const auto folder = std::filesystem::path(KEYSTEAD_BINARY_DIR) / "scratch" / name;
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    return folder.string();
}

Ran run(const std::string& command) {
    static int number = 0;
    const std::string base = (std::filesystem::path(KEYSTEAD_BINARY_DIR) / "scratch").string();
    std::filesystem::create_directories(base);
    const std::string stem = base + "/run" + std::to_string(++number);
    const int status =
        std::system((command + " >'" + stem + ".out' 2>'" + stem + ".err' </dev/null").c_str());
    Ran ran;
    ran.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    ran.out = read_text(stem + ".out");
    ran.err = read_text(stem + ".err");
    return ran;
}

Ran keystead(const std::string& words) {
    return run(std::string("'") + KEYSTEAD_BINARY_DIR + "/keystead' " + words);
}

} // namespace testing
