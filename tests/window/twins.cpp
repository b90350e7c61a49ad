#include "tests/window/twins.h"

#include "tests/window/wait.h"

#include <fstream>
#include <imgui_internal.h>

namespace keystead::journeys {

using namespace ui;

namespace {

/// Letters of other words, of a digit too many: more than this differs.
constexpr double same_share = 0.0003;

constexpr float width = 1280.0F, height = 720.0F;

/// GLFW's codes, which the window's shortcuts go by, and xdotool's names.
struct KeyName {
    ImGuiKey key;
    int code;
    const char* name;
};
constexpr KeyName key_names[] = {{ImGuiKey_Enter, 257, "Return"},
                                 {ImGuiKey_Escape, 256, "Escape"},
                                 {ImGuiKey_PageUp, 266, "Prior"},
                                 {ImGuiKey_PageDown, 267, "Next"}};

} // namespace

Twins::Twins(const std::string& name)
    : session(name)
    , mirror(Set{}, {}, width, height) {}

void Twins::to(const ImVec2& p) {
    mirror.to(p);
    session.hand.to(p);
}

void Twins::click(const ImVec2& p) {
    mirror.click(p);
    session.hand.click(p);
}

void Twins::drag(const ImVec2& from, const ImVec2& on) {
    mirror.drag(from, on);
    mirror.let_go();
    session.hand.drag(from, on);
}

void Twins::away() {
    to({2.0F, 400.0F});
}

void Twins::control(char letter, bool shift) {
    ImGui::GetIO().KeyShift = shift;
    mirror.press(letter, true);
    ImGui::GetIO().KeyShift = false;
    const char small[] = {static_cast<char>(letter - 'A' + 'a'), 0};
    session.hand.key((std::string(shift ? "ctrl+shift+" : "ctrl+") + small).c_str());
}

void Twins::key(ImGuiKey key) {
    for (const KeyName& each : key_names) {
        if (each.key != key) continue;
        for (const bool down : {true, false}) {
            mirror.table.key(key, down);
            ImGui::GetIO().KeysDown[each.code] = down;
            mirror.frames(2);
        }
        session.hand.key(each.name);
    }
}

void Twins::undo() {
    control('Z');
}

void Twins::write(const std::string& text) {
    mirror.frames(3);
    mirror.table.control(true), mirror.table.key(ImGuiKey_A, true), mirror.frames(1);
    mirror.table.key(ImGuiKey_A, false), mirror.table.control(false), mirror.frames(1);
    mirror.table.type(text), mirror.frames(2);
    session.hand.key("ctrl+a");
    session.hand.type(text);
}

void Twins::open_field(const std::string& row) {
    const Rect panel = mirror.layout().panel;
    const ImVec2 value = mirror.in_panel(row);
    click(value);
    const Rect around{panel.x, value.y - 16.0F, panel.w, 32.0F};
    constexpr std::size_t most_of_the_frame = 250;
    wait_for("the field " + row, [&] {
        return pixels_of(session.screen.seen(around), mirror.table.theme.colour.accent) >
               most_of_the_frame;
    });
}

void Twins::name_file(const std::string& name) {
    mirror.app.files.open = mirror.app.picture_file.open = false;
    mirror.frames(2);
    if (!name.empty()) {
        session.hand.key("ctrl+a");
        session.hand.type(name);
    }
    session.hand.key("Return");
}

void Twins::menu(const std::string& title, const std::string& entry) {
    click(mirror.find("menu " + title, mirror.layout().menu, 12.0F));
    click(mirror.find(entry, {0, mirror.layout().menu.bottom(), 500, 560}, 60.0F));
}

void Twins::choose(const std::string& row, const std::string& entry) {
    click(mirror.in_panel(row));
    click(mirror.find(entry, {850, 34, 430, 680}, 40.0F));
}

void Twins::saved(const std::filesystem::path& file, const std::string& what) {
    const std::string wanted = mirror.text();
    // Beside the file, for whoever has to find out what differs.
    std::ofstream(file.string() + ".wanted") << wanted;
    session.saved(file, what, [&](const std::string& text) { return text == wanted; });
}

void Twins::expect_same(const Rect& part, const std::string& what) {
    const RgbaImage wanted = mirror.expected(part);
    double off = 1.0;
    const bool same = within(patience_s, [&] {
        off = differing(session.screen.seen(part), wanted);
        return off < same_share;
    });
    INFO(what << ": share of pixels that differ " << off);
    CHECK(same);
}

void Twins::expect_same_verdicts() {
    mirror.catch_up(true);
    away();
    expect_same(mirror.layout().findings, "findings");
    expect_same(mirror.layout().strip, "lights strip");
}

double Twins::wait_for_level(const std::string& what, const std::function<bool(double)>& wanted) {
    double level = 0.0;
    const Rect picture = mirror.app.lens_picture;
    wait_for(what, [&] {
        level = mean_level(session.screen.seen(picture));
        return wanted(level);
    });
    return level;
}

} // namespace keystead::journeys
