#include "engine/gl/context.h"
#include "engine/gl/load.h"
#include "engine/gl/objects.h"
#include "engine/gl/program.h"
#include "engine/gl/shader_source.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <glad/gl.h>

using namespace keystead;

TEST_CASE("A context without a window says which platform answered and draws into a texture") {
    const auto context = HeadlessContext::create();
    REQUIRE(context.ok());
    INFO(context.value()->platform() << ": " << gl_device());
    CHECK((context.value()->platform() == "surfaceless" ||
           context.value()->platform() == "device" || context.value()->platform() == "default"));
    const Texture picture = make_texture(GL_RGBA32F, 4, 4);
    const Framebuffer target = make_framebuffer({picture.id()}, 0);
    REQUIRE(glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE);
    glClearColor(0.25F, 2.5F, -1.0F, 1.0F);
    glClear(GL_COLOR_BUFFER_BIT);
    float texel[4] = {};
    glReadPixels(3, 3, 1, 1, GL_RGBA, GL_FLOAT, texel);
    CHECK(texel[0] == 0.25F);
    CHECK(texel[1] == 2.5F);
    CHECK(texel[2] == -1.0F);
    CHECK(gl_error_messages() == 0);
}

TEST_CASE("An included shader text appears once and in place") {
    const auto folder = std::filesystem::temp_directory_path() / "keystead_shader_source_test";
    std::filesystem::create_directories(folder / "shared");
    std::ofstream(folder / "shared/a.glsl") << "#pragma once\nfloat a;\n";
    std::ofstream(folder / "shared/b.glsl") << "#include \"shared/a.glsl\"\nfloat b;\n";
    std::ofstream(folder / "main.frag")
        << "#include \"shared/b.glsl\"\n#include \"shared/a.glsl\"\nvoid main() {}\n";
    const auto text = shader_source(folder, "main.frag");
    REQUIRE(text.ok());
    CHECK(text.value() == "float a;\nfloat b;\nvoid main() {}\n");
    const auto missing = shader_source(folder, "none.frag");
    REQUIRE_FALSE(missing.ok());
    CHECK(missing.problem().message().find("none.frag") != std::string::npos);
    std::filesystem::remove_all(folder);
}
