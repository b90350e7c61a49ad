#include "engine/ui/desk.h"

#include "engine/ui/fonts.h"
#include "sim/set/catalogue.h"
#include "sim/set/set_io.h"

#include <cstdio>
#include <cstring>

namespace keystead::ui {

void refresh_theme(Desk& desk, float scale, bool force) {
    const ThemeKind kind = desk.app.settings.theme;
    scale *= static_cast<float>(desk.app.settings.size_percent) / 100.0F;
    desk.theme.colour = palette_of(kind, desk.app.settings.surround);
    const bool type = force || desk.theme.kind != kind || desk.theme.scale != scale ||
                      desk.theme.font.body == nullptr;
    desk.theme.kind = kind;
    desk.theme.units = desk.app.settings.units;
    desk.theme.scale = scale;
    if (type) {
        desk.theme.font = load_fonts(scale, kind);
        ImGui::GetIO().FontDefault = desk.theme.font.body;
        desk.atlas_is_new = true;
    }
    apply_style(desk.theme);
}

namespace {

void arrange_as_asked(App& app, const WindowOptions& options) {
    if (options.theme == "dark") app.settings.theme = ThemeKind::dark;
    if (options.theme == "light") app.settings.theme = ThemeKind::light;
    if (options.view == "upright") app.settings.arrangement = 1;
    if (options.view == "landscape") app.settings.arrangement = 2;
    if (options.view == "row") app.settings.arrangement = 3;
    if (options.learn) app.settings.learn = true;
    app.room_in_plan = options.view == "room";
    const Set& set = app.history.set();
    if (light_index(set, options.select))
        app.selection = {Thing::light, options.select};
    else if (panel_index(set, options.select))
        app.selection = {Thing::panel, options.select};
    else if (options.select == "subject")
        app.selection = {Thing::subject, {}};
    else if (options.select == "camera")
        app.selection = {Thing::camera, {}};
    else if (options.select == "room")
        app.selection = {};
}

/// An example set without its file: saving asks where. False where there is none.
bool show_demo(App& app) {
    Result<LoadedSet> demo = load_set(assets_folder() / "sets" / "harbour-choir-short.json");
    if (!demo) return false;
    show_set(app, std::move(demo).value().set, {});
    return true;
}

} // namespace

bool open_desk(Desk& desk, const WindowOptions& options, float scale, std::function<void()> wake) {
    App& app = desk.app;
    if (options.screenshot.empty()) {
        app.settings_path = settings_file();
        app.settings = load_settings(app.settings_path);
    }
    app.wake = wake;
    app.learn.tutor = make_tutor(wake);
    app.workshop = std::make_unique<Workshop>(std::move(wake));
    const bool first_run = app.settings.hints_done != all_hints;
    if (options.set_file.empty() && first_run && show_demo(app)) {
        // Something to try the hints on.
    } else if (options.set_file.empty()) {
        Set fresh;
        fresh.name = "new set";
        show_set(app, std::move(fresh), {});
    } else if (!open_set(app, options.set_file)) {
        std::fprintf(stderr, "keystead: %s\n", app.notice.c_str());
        return false;
    }
    arrange_as_asked(app, options);
    refresh_theme(desk, scale, true);
    return true;
}

std::uint64_t hash_of(const ImDrawData& data, std::uint64_t pictures) {
    // Eight bytes at a time, Fowler–Noll–Vo style multiply and fold; only equality matters.
    std::uint64_t hash = 1469598103934665603ULL ^ pictures;
    const auto mix = [&](const void* bytes, std::size_t size) {
        const auto* at = static_cast<const unsigned char*>(bytes);
        for (; size >= 8; at += 8, size -= 8) {
            std::uint64_t word = 0;
            std::memcpy(&word, at, 8);
            hash = (hash ^ word) * 1099511628211ULL;
            hash ^= hash >> 29U;
        }
        for (; size > 0; ++at, --size) hash = (hash ^ *at) * 1099511628211ULL;
    };
    for (int i = 0; i < data.CmdListsCount; ++i) {
        const ImDrawList& list = *data.CmdLists[i];
        mix(list.VtxBuffer.Data, static_cast<std::size_t>(list.VtxBuffer.size_in_bytes()));
        mix(list.IdxBuffer.Data, static_cast<std::size_t>(list.IdxBuffer.size_in_bytes()));
        // One picture in place of another changes no vertex.
        for (const ImDrawCmd& command : list.CmdBuffer)
            mix(&command.TextureId, sizeof command.TextureId);
    }
    mix(&data.DisplaySize, sizeof data.DisplaySize);
    return hash;
}

} // namespace keystead::ui
