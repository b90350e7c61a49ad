#include "engine/ui/side_panel.h"

#include "engine/ui/marks.h"
#include "engine/ui/own_section.h"
#include "engine/ui/set_commands.h"

namespace keystead::ui {

void panel_title(Flow& flow, const std::string& title, const std::string& second) {
    const Fonts& font = flow.pen.theme->font;
    const float left = flow.left + flow.px(20), width = flow.right - left;
    text_at(flow.pen, font.title, left, flow.y + flow.px(20), flow.colour().text,
            fitted(font.title, title, width));
    text_at(flow.pen, font.small, left, flow.y + flow.px(40), flow.colour().text2,
            fitted(font.small, in_units(second, flow.pen.theme->units), width));
    flow.skip(56);
}

void point_rows(Flow& flow, const std::string& path, const Vec3& p, const char* along) {
    const auto row = [&](const char* label, const char* axis, double value, Vec3 unit) {
        number_row(flow,
                   {label, path + axis, value, {Dimension::length, "m", -60, 60, 2, {}}, 0.01, {}},
                   [&](double v) { return set_point(path, p + unit * (v - value)); });
    };
    row("camera right", "/x", p.x, {1, 0, 0});
    row("height", "/y", p.y, {0, 1, 0});
    row(along, "/z", p.z, {0, 0, 1});
}

namespace {

void egg_title(Flow& flow, const std::string& title, const std::string& second) {
    egg(flow.pen, {flow.left - flow.px(2), flow.y + flow.px(27)}, flow.colour().text2);
    panel_title(flow, title, second);
}

} // namespace

void side_panel(Flow& flow, const Shown& shown, OpenSections& open) {
    const Set& set = shown.set();
    const Selection selection = still_there(shown.selection, set);
    switch (selection.thing) {
    case Thing::light:
        return light_panel(flow, shown, open, *light_index(set, selection.id));
    case Thing::panel:
        return panel_panel(flow, set, *panel_index(set, selection.id), open);
    case Thing::subject:
        egg_title(flow, "subject", set.subject.posture == Posture::seated ? "seated" : "standing");
        own_section(flow, shown, open);
        return subject_panel(flow, set, open, shown.follow);
    case Thing::camera:
        return camera_panel(flow, shown, open);
    case Thing::background:
    case Thing::room:
        return room_panel(flow, shown, open);
    }
}

} // namespace keystead::ui
