// Dependencies point one way: tools -> engine -> sim. The build puts headers that refuse to compile
// in front of every graphics header for sim and these tests; here we see that the trap works and
// that no source reaches upward.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

std::vector<std::string> includes_of(const fs::path& file) {
    static const std::regex pattern("^\\s*#\\s*include\\s*[<\"]([^>\"]+)[>\"]");
    std::vector<std::string> found;
    std::ifstream stream(file);
    std::string line;
    std::smatch match;
    while (std::getline(stream, line))
        if (std::regex_search(line, match, pattern)) found.push_back(match[1]);
    return found;
}

std::vector<fs::path> sources_below(const std::string& folder) {
    std::vector<fs::path> found;
    for (const auto& entry :
         fs::recursive_directory_iterator(fs::path(KEYSTEAD_SOURCE_DIR) / folder)) {
        const std::string ending = entry.path().extension().string();
        if (ending == ".cpp" || ending == ".h") found.push_back(entry.path());
    }
    return found;
}

} // namespace

TEST_CASE("No source of sim includes graphics, window or engine headers", "[layering]") {
    const std::regex forbidden("^(GL/|GLFW/|EGL/|KHR/|glad/|imgui|backends/|engine/|tools/)");
    const std::vector<fs::path> sources = sources_below("sim");
    REQUIRE(sources.size() > 20);
    for (const fs::path& file : sources)
        for (const std::string& include : includes_of(file)) {
            INFO(file.string() << " includes " << include);
            CHECK_FALSE(std::regex_search(include, forbidden));
        }
}

TEST_CASE("Only one file of sim includes each of the large libraries", "[layering]") {
    for (const std::string library : {"embree", "tiny_gltf", "meshoptimizer"}) {
        int files = 0;
        for (const fs::path& file : sources_below("sim"))
            for (const std::string& include : includes_of(file))
                if (include.find(library) != std::string::npos) {
                    ++files;
                    break;
                }
        INFO(library);
        CHECK(files <= 1);
    }
}

TEST_CASE("The engine decides no statics: it only reads their results", "[layering]") {
    const std::regex internal(
        "^sim/support/"
        "(?!pose\\.h|follow_head\\.h|lamp_round\\.h|panel_pose\\.h|stability\\.h|wording\\.h)");
    for (const fs::path& file : sources_below("engine"))
        for (const std::string& include : includes_of(file)) {
            INFO(file.string() << " includes " << include);
            CHECK_FALSE(std::regex_search(include, internal));
            CHECK(include.rfind("tools/", 0) != 0);
        }
}

TEST_CASE("A graphics header included from sim stops the build", "[layering]") {
    const std::string trap = std::string(KEYSTEAD_SOURCE_DIR) + "/tests/support/no_graphics";
    for (const std::string header :
         {"GL/gl.h", "GLFW/glfw3.h", "EGL/egl.h", "glad/gl.h", "imgui.h"}) {
        const std::string command = "printf '#include <" + header + ">\\n' | " + KEYSTEAD_CXX +
                                    " -std=c++20 -I'" + trap +
                                    "' -fsyntax-only -x c++ - 2>/dev/null";
        INFO(command);
        CHECK(std::system(command.c_str()) != 0);
    }
    const std::string plain = std::string("printf '#include <vector>\\n' | ") + KEYSTEAD_CXX +
                              " -std=c++20 -I'" + trap + "' -fsyntax-only -x c++ -";
    CHECK(std::system(plain.c_str()) == 0);
}
