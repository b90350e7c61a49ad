#include "tests/window/mirror.h"

#include "engine/gl/objects.h"
#include "sim/set/set_io.h"
#include "tests/window/wait.h"

#include <glad/gl.h>

#include <algorithm>
#include <backends/imgui_impl_opengl3.h>
#include <iterator>

namespace keystead::journeys {

using namespace ui;

Mirror::Mirror(Set set, std::filesystem::path file, float width, float height)
    : WindowBench(Set{}, {}, width, height) {
    Result<std::shared_ptr<HeadlessContext>> context = HeadlessContext::create();
    INFO((context ? std::string() : context.problem().message()));
    REQUIRE(context);
    context_ = std::move(context).value();
    ImGui_ImplOpenGL3_Init("#version 410 core");
    ImGui_ImplOpenGL3_NewFrame();
    app.workshop = std::make_unique<Workshop>(std::function<void()>{});
    show(std::move(set), std::move(file));
}

Mirror::~Mirror() {
    ImGui_ImplOpenGL3_Shutdown();
}

void Mirror::show(Set set, std::filesystem::path file) {
    show_set(app, std::move(set), std::move(file));
    catch_up(false);
}

void Mirror::catch_up(bool review) {
    const auto there = [&] {
        take_results(app);
        frames(1);
        const std::uint64_t now = app.revision();
        return app.studio && app.studio_revision == now &&
               (!review || (app.review && app.review_revision == now));
    };
    // As while something is dragged: how far a verdict holds is not looked at here.
    if (!there()) app.workshop->request(app.revision(), set(), true, app.folder());
    wait_for("the mirror's own review", there);
    frames(2);
}

void Mirror::set_size(int percent) {
    app.settings.size_percent = percent;
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    table.use_scale(static_cast<float>(percent) / 100.0F);
    ImGui_ImplOpenGL3_CreateFontsTexture();
    frames(3);
}

ImVec2 Mirror::grip(Plane plane, GripKind kind, const Selection& what) {
    const Page page = plane == Plane::plan ? this->plan() : elevation();
    const std::vector<Grip> grips = grips_of(app.drawn, app.outline.get(), page, app.selection);
    for (const Grip& wanted : grips) {
        if (wanted.kind != kind || !(wanted.what == what)) continue;
        std::vector<ImVec2> tries = wanted.outline;
        ImVec2 middle{0, 0};
        for (const ImVec2& p : wanted.outline)
            middle.x += p.x / static_cast<float>(wanted.outline.size()),
                middle.y += p.y / static_cast<float>(wanted.outline.size());
        // Rather well inside than at the rim.
        for (ImVec2& p : tries) p = {0.6F * p.x + 0.4F * middle.x, 0.6F * p.y + 0.4F * middle.y};
        if (!wanted.outline.empty()) tries.insert(tries.begin(), middle);
        if (wanted.radius > 0.0F) tries.insert(tries.begin(), wanted.spot);
        for (ImVec2 p : tries) {
            p = {std::round(p.x), std::round(p.y)};
            const auto found = grip_at(grips, p);
            if (found && found->kind == kind && found->what == what) return p;
        }
    }
    FAIL("nothing to take hold of there");
    return {};
}

RgbaImage Mirror::expected(const Rect& part) {
    const auto width = static_cast<int>(ImGui::GetIO().DisplaySize.x),
               height = static_cast<int>(ImGui::GetIO().DisplaySize.y);
    const Texture colour = make_texture(GL_RGBA8, width, height);
    const Framebuffer target = make_framebuffer({colour.id()}, 0);
    glBindFramebuffer(GL_FRAMEBUFFER, target.id());
    glViewport(0, 0, width, height);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    RgbaImage image;
    image.width = static_cast<int>(part.w), image.height = static_cast<int>(part.h);
    const std::size_t row = 4U * static_cast<std::size_t>(image.width);
    std::vector<std::uint8_t> rows(row * static_cast<std::size_t>(image.height));
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    // OpenGL's rows start at the bottom.
    glReadPixels(static_cast<int>(part.x), height - static_cast<int>(part.y) - image.height,
                 image.width, image.height, GL_RGBA, GL_UNSIGNED_BYTE, rows.data());
    for (int y = image.height - 1; y >= 0; --y) {
        const auto start = rows.begin() + static_cast<std::ptrdiff_t>(row) * y;
        image.pixels.insert(image.pixels.end(), start, start + static_cast<std::ptrdiff_t>(row));
    }
    return image;
}

std::string Mirror::text() const {
    return write_set(app.history.set());
}

bool Mirror::any_danger() const {
    return app.review &&
           std::any_of(app.review->findings.begin(), app.review->findings.end(),
                       [](const Finding& finding) { return finding.level == Level::danger; });
}

double differing(const RgbaImage& a, const RgbaImage& b) {
    if (a.width != b.width || a.height != b.height || a.pixels.empty()) return 1.0;
    std::size_t other = 0;
    for (std::size_t i = 0; i < a.pixels.size(); i += 4) {
        int most = 0;
        for (std::size_t channel = 0; channel < 3; ++channel)
            most = std::max(most, std::abs(a.pixels[i + channel] - b.pixels[i + channel]));
        if (most > 6) ++other;
    }
    return 4.0 * static_cast<double>(other) / static_cast<double>(a.pixels.size());
}

std::size_t pixels_of(const RgbaImage& image, ImU32 colour) {
    const std::uint8_t wanted[] = {static_cast<std::uint8_t>(colour >> IM_COL32_R_SHIFT),
                                   static_cast<std::uint8_t>(colour >> IM_COL32_G_SHIFT),
                                   static_cast<std::uint8_t>(colour >> IM_COL32_B_SHIFT)};
    std::size_t count = 0;
    for (std::size_t i = 0; i < image.pixels.size(); i += 4)
        if (std::equal(std::begin(wanted), std::end(wanted), image.pixels.data() + i)) ++count;
    return count;
}

double mean_level(const RgbaImage& image) {
    double sum = 0.0;
    for (std::size_t i = 0; i < image.pixels.size(); ++i)
        if (i % 4 != 3) sum += image.pixels[i];
    return image.pixels.empty() ? 0.0 : sum / (0.75 * static_cast<double>(image.pixels.size()));
}

} // namespace keystead::journeys
