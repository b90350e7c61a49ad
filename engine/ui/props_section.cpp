// Things from files, listed in the room's panel: where each stands, how large, and how to be rid of
// it.
#include "engine/ui/own_section.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"

#include <filesystem>

namespace keystead::ui {

namespace {

void place_rows(Flow& flow, const Prop& prop) {
    const std::string place = prop_path(prop.id, "position_m");
    const auto at = [&](const char* label, const char* axis, double value, Vec3 unit) {
        number_row(
            flow, {label, place + axis, value, {Dimension::length, "m", -60, 60, 2, {}}, 0.01, {}},
            [&](double v) { return set_point(place, prop.position_m + unit * (v - value)); });
    };
    at("camera right", "/x", prop.position_m.x, {1, 0, 0});
    at("toward camera", "/z", prop.position_m.z, {0, 0, 1});
    at("above the floor", "/y", prop.position_m.y, {0, 1, 0});
}

void prop_rows(Flow& flow, const Prop& prop, const std::string& trouble) {
    const Fonts& font = flow.pen.theme->font;
    const float cy = flow.y + 0.5F * flow.row_height();
    bool remove = false;
    const float end = link_right(flow.pen, "remove " + prop.id, "remove", flow.right, cy, remove);
    const std::string name = prop.id + ", " + std::filesystem::path(prop.path).filename().string();
    text_at(flow.pen, font.medium, flow.left, cy, flow.colour().text,
            fitted(font.medium, name, end - flow.left - flow.px(12)));
    flow.y += flow.row_height();
    if (!trouble.empty()) note(flow, trouble, flow.colour().danger);
    place_rows(flow, prop);
    number_row(flow, {"turn",
                      prop_path(prop.id, "turn_deg"),
                      prop.turn_deg,
                      {Dimension::angle, "°", -360, 360, 0, {}},
                      0.5,
                      {}});
    number_row(
        flow,
        {"size",
         prop_path(prop.id, "scale"),
         100.0 * prop.scale,
         {Dimension::plain, "%", 0.1, 100'000, 1, {}},
         0.5,
         {}},
        [&](double percent) { return set_number(prop_path(prop.id, "scale"), percent / 100.0); });
    grey_row(flow, "reflects", prop_path(prop.id, "reflectance"), prop.reflectance);
    flow.skip(6);
    if (remove)
        flow.out.perform(together("remove " + prop.id, {set_nothing("props[" + prop.id + "]")}));
}

} // namespace

void props_section(Flow& flow, const Shown& shown, OpenSections& open) {
    const std::vector<Prop>& props = shown.set().props;
    const std::string summary = props.empty() ? "none" : std::to_string(props.size());
    if (!section(flow, "Props", summary, open.props)) return;
    for (std::size_t i = 0; i < props.size(); ++i)
        prop_rows(flow, props[i], trouble_with(shown.studio, "props[" + std::to_string(i) + "]"));
    note(flow, "A thing from a glTF or OBJ file: drop it on the window, or", flow.colour().text2);
    if (link(flow, "choose prop", "choose a file…", flow.left)) flow.out.wish(Act::choose_mesh);
    flow.y += flow.row_height();
    flow.skip(6);
}

} // namespace keystead::ui
