#include "tools/bench/window_bench.h"

#include "engine/gl/context.h"
#include "engine/gl/objects.h"
#include "engine/ui/desk.h"
#include "engine/ui/picture_maker.h"

#include <glad/gl.h>

#include <backends/imgui_impl_opengl3.h>
#include <cmath>
#include <deque>
#include <imgui.h>
#include <optional>
#include <thread>

namespace keystead::bench {

namespace {

using namespace ui;
using Clock = std::chrono::steady_clock;

constexpr double screen_s = 1.0 / 60.0, drag_budget_s = 0.012, idle_budget_s = 0.030;

double ms_since(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

/// A place of the pointer whose picture is still to come.
struct Awaited {
    std::uint64_t revision;
    Clock::time_point moved;
};

struct Figures {
    std::vector<double> frame_ms, latency_ms;
};

/// The window without a screen.
struct Glass {
    Desk desk;
    Texture colour;
    Framebuffer target;
    std::uint64_t drawn_hash = 0;
    std::deque<Awaited> awaited;

    double frame(Figures* figures) {
        const auto start = Clock::now();
        App& app = desk.app;
        take_results(app);
        desk.pictures->work(app, app.dragging() ? drag_budget_s : idle_budget_s);
        const std::uint64_t pictured = desk.pictures->shown_revision();
        ImGui_ImplOpenGL3_NewFrame();
        ImGui::NewFrame();
        const std::uint64_t before = app.revision();
        build_frame(app, desk.theme, desk.pictures->shown());
        ImGui::Render();
        if (figures != nullptr && app.revision() != before)
            awaited.push_back({app.revision(), start});
        const std::uint64_t hash = hash_of(*ImGui::GetDrawData(), desk.pictures->counter());
        if (hash != drawn_hash) draw();
        drawn_hash = hash;
        while (!awaited.empty() && awaited.front().revision <= pictured) {
            if (figures != nullptr) figures->latency_ms.push_back(ms_since(awaited.front().moved));
            awaited.pop_front();
        }
        const double taken_ms = ms_since(start);
        if (figures != nullptr) figures->frame_ms.push_back(taken_ms);
        std::this_thread::sleep_until(start + std::chrono::duration_cast<Clock::duration>(
                                                  std::chrono::duration<double>(screen_s)));
        return taken_ms;
    }

    void draw() const {
        glBindFramebuffer(GL_FRAMEBUFFER, target.id());
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        glViewport(0, 0, static_cast<int>(size.x), static_cast<int>(size.y));
        ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
        glFinish();
    }

    void settle() {
        const auto start = Clock::now();
        for (int still = 0; still < 5 && ms_since(start) < 30000.0;) {
            frame(nullptr);
            const bool busy = !desk.app.workshop->idle() || desk.pictures->refining();
            still = busy ? 0 : still + 1;
        }
    }

    Page page(Plane plane) const {
        LayoutInput in;
        in.width = ImGui::GetIO().DisplaySize.x, in.height = ImGui::GetIO().DisplaySize.y;
        in.arrangement = desk.app.arrangement();
        const Set& set = desk.app.history.set();
        in.frame_aspect = frame_aspect(set.camera);
        const Layout layout = arrange(in);
        return plane == Plane::plan
                   ? page_of(desk.app.plan.sheet, plane, layout.plan, desk.theme, set.room)
                   : page_of(desk.app.elevation.sheet, plane, layout.elevation, desk.theme,
                             set.room);
    }

    /// A point of the page where the pointer takes hold of that and of nothing else.
    std::optional<ImVec2> hold_of(Plane plane, GripKind kind, const Selection& what) const {
        const Page sheet = page(plane);
        const auto grips =
            grips_of(desk.app.drawn, desk.app.outline.get(), sheet, desk.app.selection);
        const Rect& r = sheet.rect;
        for (float y = r.y + 30.0F; y < r.bottom(); y += 2.0F)
            for (float x = r.x + 2.0F; x < r.right(); x += 2.0F) {
                const auto grip = grip_at(grips, {x, y});
                if (grip && grip->kind == kind && grip->what == what) return ImVec2{x, y};
            }
        return std::nullopt;
    }

    Figures drag(const ImVec2& from, double seconds) {
        ImGuiIO& io = ImGui::GetIO();
        Figures figures;
        io.MousePos = from;
        frame(nullptr), frame(nullptr);
        io.MouseDown[0] = true;
        frame(nullptr), frame(nullptr);
        const auto start = Clock::now();
        while (ms_since(start) < 1000.0 * seconds) {
            const auto t = static_cast<float>(0.001 * ms_since(start));
            io.MousePos = {std::floor(from.x + 40.0F * std::sin(2.5F * t)),
                           std::floor(from.y + 30.0F * std::sin(3.1F * t))};
            frame(&figures);
        }
        io.MouseDown[0] = false;
        frame(nullptr);
        io.MousePos = {-1e9F, -1e9F};
        awaited.clear();
        Outbox back;
        back.wish(Act::undo);
        carry_out(desk.app, back);
        return figures;
    }
};

Json told(const Figures& figures) {
    const auto share = [](std::vector<double> values, double part) {
        std::sort(values.begin(), values.end());
        if (values.empty()) return 0.0;
        const auto last = static_cast<double>(values.size() - 1);
        return std::round(values[static_cast<std::size_t>(part * last)] * 100.0) / 100.0;
    };
    const auto late =
        static_cast<int>(std::count_if(figures.frame_ms.begin(), figures.frame_ms.end(),
                                       [](double ms) { return ms > 1000.0 * screen_s; }));
    return {{"frames", figures.frame_ms.size()},
            {"median_ms", share(figures.frame_ms, 0.5)},
            {"of_100_95_below_ms", share(figures.frame_ms, 0.95)},
            {"most_ms", share(figures.frame_ms, 1.0)},
            {"late_for_60_a_second", late},
            {"pictures", figures.latency_ms.size()},
            {"input_to_picture_median_ms", share(figures.latency_ms, 0.5)},
            {"input_to_picture_of_100_95_below_ms", share(figures.latency_ms, 0.95)},
            {"input_to_picture_most_ms", share(figures.latency_ms, 1.0)}};
}

struct Pulled {
    const char* name;
    Plane plane;
    GripKind kind;
    Thing thing;
};

Json all_drags(Glass& glass, double drag_s) {
    constexpr Pulled pulled[] = {
        {"stand over the plan", Plane::plan, GripKind::base, Thing::light},
        {"lamp or arm over the plan", Plane::plan, GripKind::body, Thing::light},
        {"column in the elevation", Plane::elevation, GripKind::column, Thing::light},
        {"target of the beam", Plane::elevation, GripKind::aim, Thing::light},
        {"head turned", Plane::plan, GripKind::head, Thing::subject},
        {"camera", Plane::plan, GripKind::camera, Thing::camera}};
    Json json;
    const Selection key{Thing::light, glass.desk.app.history.set().lights.front().id};
    for (const Pulled& each : pulled) {
        const Selection what = each.thing == Thing::light ? key : Selection{each.thing, {}};
        glass.desk.app.selection = what;
        glass.settle();
        const auto from = glass.hold_of(each.plane, each.kind, what);
        json[each.name] = from ? told(glass.drag(*from, drag_s)) : Json("cannot be taken hold of");
    }
    return json;
}

} // namespace

Json window_drags(const std::string& set_file, int width_px, int height_px, FillerKind filler,
                  double drag_s) {
    IMGUI_CHECKVERSION();
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {static_cast<float>(width_px), static_cast<float>(height_px)};
    io.DeltaTime = static_cast<float>(screen_s);
    io.MousePos = {-1e9F, -1e9F};
    for (int key = 0; key < ImGuiKey_COUNT; ++key) io.KeyMap[key] = 400 + key;
    Json json;
    {
        Glass glass;
        WindowOptions options;
        options.set_file = set_file;
        options.screenshot = "none"; // no settings of a person are read
        options.width_px = width_px, options.height_px = height_px;
        options.filler = filler;
        if (open_desk(glass.desk, options, 1.0F, {})) {
            ImGui_ImplOpenGL3_Init("#version 410 core");
            glass.colour = make_texture(GL_RGBA8, width_px, height_px);
            glass.target = make_framebuffer({glass.colour.id()}, 0);
            glass.desk.pictures = std::make_unique<PictureMaker>(filler);
            json = all_drags(glass, drag_s);
            glass.desk.pictures.reset();
            ImGui_ImplOpenGL3_Shutdown();
        }
    }
    ImGui::DestroyContext();
    return json;
}

} // namespace keystead::bench
