#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"
#include "engine/ui/words.h"

#include <nlohmann/json.hpp>

namespace keystead::ui {

void background_section(Flow& flow, const Set& set, OpenSections& open) {
    const Background& b = set.background;
    static const std::vector<std::string> kinds{"none", "paper", "cloth"};
    const std::string& now = kinds[static_cast<std::size_t>(b.kind)];
    if (!section(flow, "Background", now, open.background)) return;
    const int kind = choice_row(flow, "kind", "background.kind", now, kinds);
    if (kind >= 0)
        flow.out.perform(set_word("background.kind", kinds[static_cast<std::size_t>(kind)]));
    if (b.kind != BackgroundKind::none) {
        const auto row = [&](const char* label, const char* path, double value, double low,
                             double high) {
            number_row(flow,
                       {label, path, value, {Dimension::length, "m", low, high, 2, {}}, 0.01, {}});
        };
        row("behind the subject", "background.distance_m", b.distance_m, 0.2, 50);
        row("to camera right", "background.offset_m", b.offset_m, -20, 20);
        row("width", "background.width_m", b.width_m, 0.3, 30);
        row("height", "background.height_m", b.height_m, 0.3, 15);
        row("runs on the floor", "background.sweep_m", b.sweep_m, 0, 30);
        grey_row(flow, "reflects", "background.reflectance", b.reflectance);
    }
    flow.skip(6);
}

void room_panel(Flow& flow, const Shown& shown, OpenSections& open) {
    const Set& set = shown.set();
    const Room& r = set.room;
    panel_title(flow, "room",
                number_text(r.width_m, 2) + " × " + number_text(r.depth_m, 2) + " m, ceiling " +
                    number_text(r.ceiling_m, 2) + " m");
    if (section(flow, "Room", {}, open.room)) {
        const auto row = [&](const char* label, const char* path, double value, double low,
                             double high) {
            number_row(flow,
                       {label, path, value, {Dimension::length, "m", low, high, 2, {}}, 0.01, {}});
        };
        row("width", "room.width_m", r.width_m, 1, 60);
        row("depth", "room.depth_m", r.depth_m, 1, 60);
        row("ceiling", "room.ceiling_m", r.ceiling_m, 1.8, 20);
        row("left of the subject", "room.left_of_subject_m", r.left_of_subject_m, 0.2, 59);
        row("behind the subject", "room.behind_subject_m", r.behind_subject_m, 0.2, 59);
        number_row(flow, {"room light on the face",
                          "room.ambient_lx",
                          r.ambient_lx,
                          {Dimension::plain, "", 0, 100000, 0, {}},
                          2.0,
                          {}});
        number_row(flow, {"its colour",
                          "room.ambient_k",
                          r.ambient_k,
                          {Dimension::temperature, "K", 1500, 20000, 0, {}},
                          25.0,
                          {}});
        grey_row(flow, "walls reflect", "room.walls", r.walls);
        grey_row(flow, "floor reflects", "room.floor", r.floor);
        flow.skip(6);
    }
    background_section(flow, set, open);
    props_section(flow, shown, open);
    hairline(flow);
}

namespace {

/// On the floor, or hung by its middle from a stand of the catalogue.
void stand_row(Flow& flow, const Panel& p) {
    const auto& supports = catalogue().supports;
    std::vector<std::string> names{"none: on the floor"};
    for (const auto& entry : supports) names.push_back(entry.name);
    const std::string path = panel_path(p.id, "support");
    const std::string now = !p.support                ? names.front()
                            : p.support->from.empty() ? support_words(*p.support)
                                                      : entry_name(p.support->from);
    const int picked = choice_row(flow, "stand", path, now, names);
    if (picked == 0 && p.support) flow.out.perform(set_nothing(path));
    if (picked > 0)
        flow.out.perform(set_from(path, supports[static_cast<std::size_t>(picked) - 1].id));
}

void stand_rows(Flow& flow, const Panel& p) {
    const Support& support = *p.support;
    const std::string path = panel_path(p.id, "support.");
    const auto row = [&](const char* label, const char* field, double value, double low,
                         double high) {
        number_row(
            flow,
            {label, path + field, value, {Dimension::length, "m", low, high, 2, {}}, 0.01, {}});
    };
    const Vec2 at = support.base.position_m;
    const auto place = [&](const char* label, const char* axis, double value, auto moved) {
        number_row(flow,
                   {label,
                    path + "base.position_m" + axis,
                    value,
                    {Dimension::length, "m", -60, 60, 2, {}},
                    0.01,
                    {}},
                   [&](double v) { return set_place(path + "base.position_m", moved(v)); });
    };
    place("camera right", "/x", at.x, [&](double v) { return Vec2(v, at.y); });
    place("toward camera", "/z", at.y, [&](double v) { return Vec2(at.x, v); });
    row("column", "column.height_m", support.column.height_m, support.column.min_height_m,
        support.column.max_height_m);
    if (support.arm)
        row("arm reach", "arm.reach_m", support.arm->reach_m, support.arm->min_reach_m,
            support.arm->max_reach_m);
}

/// What its surface does to light.
void surface_rows(Flow& flow, const Panel& p) {
    grey_row(flow, "reflects", panel_path(p.id, "reflectance"), p.reflectance);
    const bool silver = p.finish == PanelFinish::silver;
    if (toggle_row(flow, "surface", panel_path(p.id, "finish"), true, silver ? "silver" : "matt",
                   ""))
        flow.out.perform(set_word(panel_path(p.id, "finish"), silver ? "matte" : "silver"));
    if (p.kind != PanelKind::scrim) return;
    const std::string path = panel_path(p.id, "transmission");
    number_row(flow,
               {"lets through",
                path,
                100.0 * p.transmission,
                {Dimension::plain, "%", 0, 100, 0, {}},
                0.5,
                {}},
               [&](double percent) { return set_number(path, percent / 100.0); });
}

} // namespace

void panel_panel(Flow& flow, const Set& set, std::size_t index, OpenSections& open) {
    const Panel& p = set.panels[index];
    panel_title(flow, p.id, panel_words(p.kind));
    if (!section(flow, "Place", {}, open.place)) return;
    const std::string place = panel_path(p.id, "position_m");
    const auto at = [&](const char* label, const char* axis, double value, Vec3 unit) {
        number_row(flow,
                   {label, place + axis, value, {Dimension::length, "m", -60, 60, 2, {}}, 0.01, {}},
                   [&](double v) { return set_point(place, p.position_m + unit * (v - value)); });
    };
    stand_row(flow, p);
    if (p.support) {
        stand_rows(flow, p);
    } else {
        at("camera right", "/x", p.position_m.x, {1, 0, 0});
        at("toward camera", "/z", p.position_m.z, {0, 0, 1});
        at("above the floor", "/y", p.position_m.y, {0, 1, 0});
    }
    const auto row = [&](const char* label, const char* field, double value, QuantityRule rule) {
        number_row(flow, {label, panel_path(p.id, field), value, std::move(rule), 0.5, {}});
    };
    row("faces", "turn_deg", p.turn_deg, {Dimension::angle, "°", -360, 360, 0, {}});
    row("leans back", "tilt_deg", p.tilt_deg, {Dimension::angle, "°", -90, 90, 0, {}});
    if (p.kind == PanelKind::v_flat)
        row("folds back", "fold_deg", p.fold_deg, {Dimension::angle, "°", 0, 90, 0, {}});
    else
        row("rolled", "roll_deg", p.roll_deg, {Dimension::angle, "°", -180, 180, 0, {}});
    surface_rows(flow, p);
    flow.skip(6);
    hairline(flow);
}

} // namespace keystead::ui
