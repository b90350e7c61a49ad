#include "engine/ui/screenshot.h"

#include "engine/gl/context.h"
#include "engine/gl/load.h"
#include "engine/gl/objects.h"
#include "engine/ui/desk.h"

#include <glad/gl.h>

#include <algorithm>
#include <backends/imgui_impl_opengl3.h>
#include <chrono>
#include <cstdio>
#include <stb/stb_image_write.h>
#include <thread>

namespace keystead::ui {

namespace {

using Clock = std::chrono::steady_clock;

void one_frame(Desk& desk, const WindowOptions& options) {
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = {static_cast<float>(options.width_px), static_cast<float>(options.height_px)};
    io.DeltaTime = 1.0F / 60.0F;
    io.MousePos = {-1e9F, -1e9F};
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    build_frame(desk.app, desk.theme, desk.pictures->shown());
    ImGui::Render();
}

void settle(Desk& desk, const WindowOptions& options) {
    const auto end = Clock::now() + std::chrono::duration<double>(options.settle_s);
    for (int still = 0; still < 3 && Clock::now() < end;) {
        take_results(desk.app);
        one_frame(desk, options);
        const bool changed = desk.pictures->work(desk.app, 0.2);
        const bool waiting = !desk.app.workshop->idle() || learning(desk.app.learn) ||
                             desk.pictures->refining() || changed;
        still = waiting ? 0 : still + 1;
        if (!changed && waiting) std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    take_results(desk.app);
    one_frame(desk, options);
    one_frame(desk, options);
}

bool write_frame(const WindowOptions& options) {
    const int width = options.width_px, height = options.height_px;
    const Texture colour = make_texture(GL_RGBA8, width, height);
    const Framebuffer target = make_framebuffer({colour.id()}, 0);
    glBindFramebuffer(GL_FRAMEBUFFER, target.id());
    glViewport(0, 0, width, height);
    glClearColor(0, 0, 0, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    glBindFramebuffer(GL_FRAMEBUFFER, target.id());
    std::vector<unsigned char> pixels(static_cast<std::size_t>(width) *
                                      static_cast<std::size_t>(height) * 3U);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, pixels.data());
    // OpenGL's rows start at the bottom.
    std::vector<unsigned char> rows(pixels.size());
    const std::size_t row = static_cast<std::size_t>(width) * 3U;
    for (int y = 0; y < height; ++y)
        std::copy_n(pixels.begin() +
                        static_cast<std::ptrdiff_t>(row * static_cast<std::size_t>(height - 1 - y)),
                    row,
                    rows.begin() + static_cast<std::ptrdiff_t>(row * static_cast<std::size_t>(y)));
    return stbi_write_png(options.screenshot.c_str(), width, height, 3, rows.data(), width * 3) !=
           0;
}

int run_headless(const WindowOptions& options) {
    Desk desk;
    const float scale = options.scale > 0.0 ? static_cast<float>(options.scale) : 1.0F;
    if (!open_desk(desk, options, scale, {})) return 2;
    ImGui_ImplOpenGL3_Init("#version 410 core");
    desk.pictures = std::make_unique<PictureMaker>(options.filler);
    settle(desk, options);
    const bool written = write_frame(options);
    desk.pictures.reset();
    ImGui_ImplOpenGL3_Shutdown();
    if (!written)
        std::fprintf(stderr, "keystead: %s: cannot be written\n", options.screenshot.c_str());
    return written ? 0 : 1;
}

} // namespace

int take_screenshot(const WindowOptions& options) {
    const auto context = HeadlessContext::create();
    if (!context) {
        std::fprintf(stderr, "keystead: %s\n", context.problem().message().c_str());
        return 3;
    }
    IMGUI_CHECKVERSION();
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    const int code = run_headless(options);
    ImGui::DestroyContext();
    return code;
}

} // namespace keystead::ui
