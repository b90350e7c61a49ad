#include "engine/ui/menu_line.h"

#include "engine/ui/marks.h"
#include "engine/ui/role_items.h"
#include "engine/ui/size_slider.h"
#include "engine/ui/widgets.h"

namespace keystead::ui {

namespace {

void item(Outbox& out, const char* words, const char* keys, Act act, bool enabled = true,
          bool ticked = false) {
    if (ImGui::MenuItem(words, keys, ticked, enabled)) out.wish(act);
}

void files(Outbox& out, const char* title, const std::vector<std::filesystem::path>& paths) {
    if (paths.empty() || !ImGui::BeginMenu(title)) return;
    for (const auto& path : paths)
        if (ImGui::MenuItem(path.stem().string().c_str())) out.wish(Act::open_file, path.string());
    ImGui::EndMenu();
}

/// What the set was, of when, and the file that lacks it; bringing it back leaves it there.
void left_behind_menu(Outbox& out, const std::vector<LeftBehind>& copies) {
    if (copies.empty() || !ImGui::BeginMenu("Not saved when a session broke off")) return;
    const std::int64_t now_s = seconds_now();
    for (const LeftBehind& each : copies) {
        const std::string of = each.file.empty() ? "" : ", of " + each.file.filename().string();
        const std::string words = each.name + ", " + when_words(each.written_s, now_s) + of;
        if (!ImGui::BeginMenu((words + "##" + each.copy.string()).c_str())) continue;
        if (ImGui::MenuItem("Bring it back")) out.wish(Act::bring_back, each.copy.string());
        if (ImGui::MenuItem("Drop it for good")) out.wish(Act::drop_copy, each.copy.string());
        ImGui::EndMenu();
    }
    ImGui::EndMenu();
}

void set_menu(const MenuInput& in, Outbox& out) {
    item(out, "New", "Ctrl+N", Act::new_set);
    item(out, "Open…", "Ctrl+O", Act::open);
    files(out, "Opened lately", in.recent);
    files(out, "Example sets", in.examples);
    left_behind_menu(out, in.left_behind);
    ImGui::Separator();
    item(out, "Save", "Ctrl+S", Act::save, in.can_save);
    item(out, "Save as…", "Ctrl+Shift+S", Act::save_as);
    item(out, "Save the picture…", "Ctrl+P", Act::picture_sheet);
    item(out, "Copy the caption", "Ctrl+Shift+C", Act::copy_caption);
    ImGui::Separator();
    item(out, "Quit", "Ctrl+Q", Act::quit);
}

void edit_menu(const MenuInput& in, Outbox& out) {
    const std::string undo = in.undo_label.empty() ? "Undo" : "Undo: " + in.undo_label;
    const std::string redo = in.redo_label.empty() ? "Redo" : "Redo: " + in.redo_label;
    item(out, undo.c_str(), "Ctrl+Z", Act::undo, !in.undo_label.empty());
    item(out, redo.c_str(), "Ctrl+Shift+Z", Act::redo, !in.redo_label.empty());
    ImGui::Separator();
    if (ImGui::BeginMenu("Add a light")) {
        role_items(out);
        ImGui::EndMenu();
    }
    item(out, "Head, figure or prop from a file…", nullptr, Act::choose_mesh);
}

/// Ways of looking at other states than the present one.
void states(const MenuInput& in, Outbox& out) {
    item(out, "Keep this state", "Ctrl+K", Act::keep_state);
    item(out, "Kept states and what differs", "Ctrl+D", Act::kept_page, true, in.kept_page);
    item(out, "Kept state beside now", "Ctrl+Shift+K", Act::split_picture, in.any_kept,
         in.split_picture);
    item(out, "Build order, light by light", "Ctrl+B", Act::build_order, true, in.build_order);
    ImGui::Separator();
}

void view_menu(const MenuInput& in, Outbox& out) {
    states(in, out);
    item(out, "Dark", nullptr, Act::theme_dark, true, in.theme == ThemeKind::dark);
    item(out, "Light", nullptr, Act::theme_light, true, in.theme == ThemeKind::light);
    ImGui::Separator();
    item(out, "Arranged by the frame", nullptr, Act::arrange_by_frame, true, in.arrangement == 0);
    item(out, "Lens as a column", nullptr, Act::arrange_upright, true, in.arrangement == 1);
    item(out, "Plan as a column", nullptr, Act::arrange_landscape, true, in.arrangement == 2);
    item(out, "Lens on top", nullptr, Act::arrange_row, true, in.arrangement == 3);
    ImGui::Separator();
    item(out, "Plan", "F2", Act::plan_view, true, !in.room_in_plan);
    item(out, "Room in place of the plan", "F3", Act::room_view, true, in.room_in_plan);
    item(out, "Fit the drawings", "F4", Act::fit_views);
    ImGui::Separator();
    item(out, "Stops from the face in place of the picture", "F5", Act::stops_shown, true,
         in.stops_shown);
    item(out, "Clipping marks", "F6", Act::clipping_marks, true, in.clipping_marks);
    ImGui::Separator();
    size_slider(in.size_percent, out);
    if (ImGui::BeginMenu("Lengths and masses")) {
        item(out, "Metres and kilograms", nullptr, Act::units_metric, true,
             in.units == Units::metric);
        item(out, "Feet, inches and pounds", nullptr, Act::units_imperial, true,
             in.units == Units::imperial);
        ImGui::EndMenu();
    }
    if (!ImGui::BeginMenu("Grey round the picture")) return;
    item(out, "As the theme", nullptr, Act::surround_theme, true, in.surround == 0);
    item(out, "Dark", nullptr, Act::surround_dark, true, in.surround == 1);
    item(out, "Middle", nullptr, Act::surround_middle, true, in.surround == 2);
    item(out, "Light", nullptr, Act::surround_light, true, in.surround == 3);
    ImGui::EndMenu();
}

void learn_menu(const MenuInput& in, Outbox& out) {
    item(out, "Name the shadows, chart the patterns", "F7", Act::learn, true, in.learn);
    item(out, "Close to the face", nullptr, Act::close_up, in.learn, in.learn && in.close_up);
    item(out, "Chart in place of the elevation", nullptr, Act::chart_shown, in.learn,
         in.learn && in.chart_shown);
    ImGui::Separator();
    item(out, "The key moves with the head", nullptr, Act::follow_head, true, in.head_followed);
}

void help_menu(const MenuInput&, Outbox& out) {
    item(out, "Cautions", "F1", Act::cautions);
    item(out, "Keys and pointer", nullptr, Act::keys);
}

struct Menu {
    const char* name;
    void (*body)(const MenuInput&, Outbox&);
};
constexpr Menu menus[] = {{"Set", set_menu},
                          {"Edit", edit_menu},
                          {"View", view_menu},
                          {"Learn", learn_menu},
                          {"Help", help_menu}};

/// One title; opens its list, and follows the pointer along the line while any list is open.
float title(Pen pen, const Menu& menu, float x, const Rect& rect, const MenuInput& in,
            Outbox& out) {
    const ImFont* font = pen.theme->font.body;
    const float w = width_of(font, menu.name) + pen.px(26);
    const Rect area{x, rect.y, w, rect.h};
    const Hit hit = hit_area(std::string("menu ") + menu.name, area);
    const bool open = ImGui::IsPopupOpen(menu.name);
    bool any = false;
    for (const Menu& other : menus) any = any || ImGui::IsPopupOpen(other.name);
    const bool over = area.contains(ImGui::GetIO().MousePos.x, ImGui::GetIO().MousePos.y);
    const bool by_key = in.open_first && !any && &menu == &menus[0];
    if (hit.clicked || by_key || (any && !open && over)) ImGui::OpenPopup(menu.name);
    if (open || hit.hovered)
        fill_rect(pen, {x, rect.y, w, rect.h}, open ? pen.colour().pressed : pen.colour().hover);
    text_centre(pen, font, area.centre_x(), area.centre_y(), pen.colour().text, menu.name);
    ImGui::SetNextWindowPos({x, rect.bottom()});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(pen.px(10), pen.px(8)));
    if (ImGui::BeginPopup(menu.name, ImGuiWindowFlags_NoMove)) {
        menu.body(in, out);
        close_on_escape();
        ImGui::EndPopup();
    }
    ImGui::PopStyleVar();
    return x + w;
}

} // namespace

void menu_line(Pen pen, const Rect& rect, const MenuInput& in, Outbox& out) {
    const Palette& c = pen.colour();
    const Fonts& font = pen.theme->font;
    fill_rect(pen, rect, c.chrome);
    line(pen, {rect.x, rect.bottom() - 1}, {rect.right(), rect.bottom() - 1}, 1.0F, c.line);
    // Arrows and Enter walk through an open list; elsewhere they belong to what is picked.
    ImGuiIO& io = ImGui::GetIO();
    const bool listing = in.open_first || ImGui::IsPopupOpen("", ImGuiPopupFlags_AnyPopup);
    io.ConfigFlags = listing ? io.ConfigFlags | ImGuiConfigFlags_NavEnableKeyboard
                             : io.ConfigFlags & ~ImGuiConfigFlags_NavEnableKeyboard;
    float x = rect.x + pen.px(4);
    for (const Menu& menu : menus) x = title(pen, menu, x, rect, in, out);
    const float cy = rect.centre_y();
    const Rect redo{rect.right() - pen.px(40), rect.y, pen.px(34), rect.h},
        undo{redo.x - pen.px(34), rect.y, pen.px(34), rect.h};
    const Hit undo_hit = hit_area("undo", undo), redo_hit = hit_area("redo", redo);
    if (undo_hit.hovered) fill_rect(pen, undo, c.hover, 3.0F);
    if (redo_hit.hovered) fill_rect(pen, redo, c.hover, 3.0F);
    turn_arrow(pen, {undo.centre_x(), cy}, true, in.undo_label.empty() ? c.line_strong : c.text2);
    turn_arrow(pen, {redo.centre_x(), cy}, false, in.redo_label.empty() ? c.line_strong : c.text2);
    if (undo_hit.clicked) out.wish(Act::undo);
    if (redo_hit.clicked) out.wish(Act::redo);
    const float name_width = width_of(font.medium, in.name),
                state_width = width_of(font.small, in.state);
    const float start =
        std::max(x + pen.px(20), rect.centre_x() - 0.5F * (name_width + state_width));
    float end = text_at(pen, font.medium, start, cy, c.text,
                        fitted(font.medium, in.name, undo.x - start - pen.px(20)));
    end = text_at(pen, font.small, end + pen.px(9), cy, c.text2, in.state);
    if (in.notice.empty()) return;
    const float room = undo.x - pen.px(16) - end - pen.px(24);
    text_right(pen, font.small, undo.x - pen.px(16), cy, in.notice_is_bad ? c.danger : c.text2,
               fitted(font.small, in_units(in.notice, pen.theme->units), room));
}

} // namespace keystead::ui
