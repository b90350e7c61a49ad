#include "engine/ui/file_list.h"

#include "engine/ui/marks.h"
#include "engine/ui/sheet_box.h"
#include "engine/ui/widgets.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>

namespace keystead::ui {

namespace fs = std::filesystem;

namespace {

/// Of what is saved.
const char* ending_of(const FileList& list) {
    return list.pictures ? ".png" : ".json";
}

bool is_offered(const FileList& list, const fs::path& file) {
    if (list.meshes) return ends_like(file, {".glb", ".gltf", ".obj"});
    if (list.measured) return ends_like(file, {".ies", ".ldt"});
    return ends_like(file, {ending_of(list)});
}

} // namespace

void read_folder(FileList& list) {
    list.folders.clear();
    list.files.clear();
    list.trouble.clear();
    std::error_code error;
    for (fs::directory_iterator
             it(list.folder, fs::directory_options::skip_permission_denied, error),
         end;
         !error && it != end; it.increment(error)) {
        const std::string name = it->path().filename().string();
        if (name.empty() || name[0] == '.') continue;
        std::error_code ignored;
        if (it->is_directory(ignored))
            list.folders.push_back(it->path());
        else if (is_offered(list, it->path()))
            list.files.push_back(it->path());
    }
    if (error) list.trouble = "cannot be read: " + error.message();
    std::sort(list.folders.begin(), list.folders.end());
    std::sort(list.files.begin(), list.files.end());
}

void open_file_list(FileList& list, const fs::path& folder, bool saving, const std::string& name) {
    list = {};
    list.open = true;
    list.saving = saving;
    std::error_code error;
    list.folder = fs::weakly_canonical(folder.empty() ? fs::current_path(error) : folder, error);
    std::snprintf(list.name, sizeof list.name, "%s", name.c_str());
    read_folder(list);
}

void open_mesh_list(FileList& list, const fs::path& folder) {
    open_file_list(list, folder, false, "");
    list.meshes = true;
    read_folder(list);
}

bool ends_like(const fs::path& file, std::initializer_list<std::string_view> endings) {
    std::string ending = file.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return std::find(endings.begin(), endings.end(), ending) != endings.end();
}

void open_measured_list(FileList& list, const fs::path& folder) {
    open_file_list(list, folder, false, "");
    list.measured = true;
    read_folder(list);
}

void open_picture_list(FileList& list, const fs::path& folder, const std::string& name) {
    open_file_list(list, folder, true, name);
    list.pictures = true;
    read_folder(list);
}

namespace {

bool entry(Pen pen, const Rect& row, const std::string& id, const std::string& words, bool folder) {
    const Palette& c = pen.colour();
    const Hit hit = hit_area(id, row);
    if (hit.hovered) fill_rect(pen, row, c.hover, 3.0F);
    const float x = row.x + pen.px(12);
    if (folder) chevron(pen, {x + pen.px(2), row.centre_y()}, false, c.text2);
    text_at(pen, pen.theme->font.body, x + pen.px(14), row.centre_y(), folder ? c.text2 : c.text,
            words);
    return hit.clicked;
}

/// The scrolling part. Returns a file that was clicked.
std::optional<fs::path> entries(Pen outer, const Rect& area, FileList& list) {
    std::optional<fs::path> clicked;
    std::optional<fs::path> enter;
    ImGui::SetCursorScreenPos({area.x, area.y});
    ImGui::BeginChild("files", {area.w, area.h}, false, ImGuiWindowFlags_NoBackground);
    const Pen pen{ImGui::GetWindowDrawList(), outer.theme};
    const ImVec2 start = ImGui::GetCursorScreenPos();
    const float h = pen.px(26);
    float y = start.y;
    const auto row = [&](const fs::path& path, const std::string& words, bool folder) {
        if (entry(pen, {start.x, y, area.w - pen.px(12), h}, path.string() + (folder ? "/" : ""),
                  words, folder))
            (folder ? enter : clicked) = path;
        y += h;
    };
    if (list.folder.has_parent_path() && list.folder != list.folder.root_path())
        row(list.folder.parent_path(), "one folder up", true);
    for (const fs::path& path : list.folders) row(path, path.filename().string(), true);
    for (const fs::path& path : list.files) row(path, path.filename().string(), false);
    ImGui::SetCursorScreenPos({start.x, y});
    ImGui::Dummy({1, 1});
    ImGui::EndChild();
    if (enter) {
        list.folder = *enter;
        read_folder(list);
    }
    return clicked;
}

/// The field for a name or a whole path; true when it is meant.
bool name_field(Pen pen, const Rect& box, FileList& list) {
    fill_rect(pen, box, pen.colour().field, 3.0F);
    frame_rect(pen, box, pen.colour().line_strong, 3.0F);
    ImGui::SetCursorScreenPos(
        {box.x + pen.px(8), std::floor(box.centre_y() - 0.5F * ImGui::GetFontSize())});
    ImGui::SetNextItemWidth(box.w - pen.px(16));
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(0, 0));
    ImGui::PushStyleColor(ImGuiCol_FrameBg, ImVec4(0, 0, 0, 0));
    if (list.age == 0) ImGui::SetKeyboardFocusHere();
    const bool entered = ImGui::InputText("##file name", list.name, sizeof list.name,
                                          ImGuiInputTextFlags_EnterReturnsTrue);
    ImGui::PopStyleColor();
    ImGui::PopStyleVar();
    return entered;
}

std::optional<fs::path> meant(FileList& list) {
    fs::path path = list.name;
    if (path.empty()) return std::nullopt;
    if (path.is_relative()) path = list.folder / path;
    std::error_code error;
    if (fs::is_directory(path, error)) {
        list.folder = path;
        list.name[0] = 0;
        read_folder(list);
        return std::nullopt;
    }
    if (!list.meshes && !list.measured && path.extension() != ending_of(list))
        path += ending_of(list);
    if (list.saving && fs::exists(path, error) && !list.replace_asked) {
        list.replace_asked = true;
        list.age = 0; // the field listens again: Enter a second time is "save again"
        list.trouble = path.filename().string() + " is there already: save again to replace it";
        return std::nullopt;
    }
    if (!list.saving && !fs::exists(path, error)) {
        list.trouble = path.filename().string() + " is not there";
        return std::nullopt;
    }
    return path;
}

} // namespace

std::optional<fs::path> file_list(Pen pen, const Rect& area, FileList& list) {
    const Palette& c = pen.colour();
    const float w = std::min(pen.px(560), area.w - pen.px(24)),
                h = std::min(pen.px(460), area.h - pen.px(24));
    const Rect box = sheet_box(pen, area, w, h);
    const float left = box.x + pen.px(16), right = box.right() - pen.px(16);
    text_at(pen, pen.theme->font.medium, left, box.y + pen.px(22), c.text,
            list.pictures   ? "Save the picture as"
            : list.saving   ? "Save the set as"
            : list.meshes   ? "Take a glTF or OBJ file into the set"
            : list.measured ? "A measured light distribution, IES or LDT"
                            : "Open a set");
    text_at(pen, pen.theme->font.small, left, box.y + pen.px(42), c.text2,
            fitted(pen.theme->font.small, list.folder.string(), right - left));
    std::optional<fs::path> chosen = entries(
        pen, {box.x + pen.px(4), box.y + pen.px(56), w - pen.px(8), h - pen.px(56 + 100)}, list);
    if (chosen && list.saving) {
        std::snprintf(list.name, sizeof list.name, "%s", chosen->filename().string().c_str());
        list.replace_asked = false;
        chosen.reset();
    }
    const float bottom = box.bottom() - pen.px(16),
                act_width = button_width(pen, list.saving ? "save" : "open");
    const bool entered =
        name_field(pen, {left, bottom - pen.px(66), right - left, pen.px(28)}, list);
    const bool act =
        button(pen, "file act", {right - act_width, bottom - pen.px(24), act_width, pen.px(24)},
               list.saving ? "save" : "open", ButtonKind::accent);
    const float leave = button_width(pen, "cancel");
    const bool left_it =
        button(pen, "file cancel",
               {right - act_width - pen.px(8) - leave, bottom - pen.px(24), leave, pen.px(24)},
               "cancel", ButtonKind::plain);
    if (!list.trouble.empty())
        text_at(pen, pen.theme->font.small, left, bottom - pen.px(12), c.danger,
                fitted(pen.theme->font.small, list.trouble,
                       right - act_width - leave - left - pen.px(24)));
    ++list.age;
    if (entered || act) {
        chosen = meant(list);
        // Enter took the keyboard from the field: it may be wanted again.
        if (!chosen) list.age = 0;
    }
    if (left_it || ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape)) || chosen)
        list.open = false;
    return chosen;
}

} // namespace keystead::ui
