#include "engine/ui/own_section.h"

#include "engine/ui/set_commands.h"
#include "sim/set/field_rules.h"

#include <filesystem>

namespace keystead::ui {

namespace {

const std::vector<std::string> units{"millimetres", "centimetres", "metres", "inches", "feet"};
const std::vector<std::string> axes{"X", "Y", "Z"};
const std::vector<std::string> parts{"a head", "head and shoulders", "a whole figure"};

/// "85 % sure" and the two things that can be done about it.
void point_row(Flow& flow, std::size_t i, const std::optional<HeadPoint>& point, bool wanted) {
    const Fonts& font = flow.pen.theme->font;
    const Palette& c = flow.colour();
    const float h = flow.row_height(), cy = flow.y + 0.5F * h;
    const std::string id = own_point_fields[i];
    bool place = false, forget = false;
    float right =
        link_right(flow.pen, "place " + id, wanted ? "placing…" : "place…", flow.right, cy, place);
    if (point && point->by_hand)
        right = link_right(flow.pen, "forget " + id, "forget", right - flow.px(12), cy, forget);
    const float end = text_at(flow.pen, font.body, flow.left, cy, c.text2, own_point_words[i]);
    const std::string words =
        fitted(font.body, found_words(point), right - flow.px(16) - end - flow.px(8));
    const float start =
        text_right(flow.pen, font.body, right - flow.px(12), cy, point ? c.text : c.caution, words);
    leader(flow.pen, end, start, cy);
    flow.y += h;
    if (place) flow.out.wish(Act::place_point, wanted ? "" : std::to_string(i));
    if (forget) flow.out.perform(set_nothing(own_point_path(i)));
}

void points(Flow& flow, const Shown& shown) {
    if (shown.studio == nullptr) return;
    const std::array<OwnPoint, 5> known = own_points(*shown.studio);
    for (std::size_t i = 0; i < known.size(); ++i)
        point_row(flow, i, known[i].point,
                  shown.placing && static_cast<std::size_t>(*shown.placing) == i);
    note(flow, "Place: then click the point on the face in the picture.", flow.colour().text3);
    flow.skip(4);
}

void file_rows(Flow& flow, const SubjectFile& file) {
    const auto word_row = [&](const char* label, const char* path, auto now,
                              const std::vector<std::string>& shown) {
        const int picked =
            choice_row(flow, label, path, shown[static_cast<std::size_t>(now)], shown);
        if (picked >= 0)
            flow.out.perform(set_word(path, word_of(static_cast<decltype(now)>(picked))));
    };
    word_row("it shows", "subject.file.part", file.part, parts);
    word_row("its unit", "subject.file.unit", file.unit, units);
    word_row("its axis that points up", "subject.file.up", file.up, axes);
    number_row(flow, {"faces further round",
                      "subject.file.turn_deg",
                      file.turn_deg,
                      {Dimension::angle, "°", -360, 360, 0, {}},
                      0.5,
                      {}});
}

} // namespace

std::string found_words(const std::optional<HeadPoint>& point) {
    if (!point) return "not found";
    if (point->by_hand) return "placed by hand";
    return "found, " + number_text(100.0 * point->confidence, 0) + " % sure";
}

std::string trouble_with(const Studio* studio, const std::string& path) {
    if (studio == nullptr) return {};
    for (const Problem& problem : studio->problems)
        if (problem.path.starts_with(path)) return problem.message() + ".";
    return {};
}

void own_section(Flow& flow, const Shown& shown, OpenSections& open) {
    const std::optional<SubjectFile>& file = shown.set().subject.file;
    const std::string name =
        file ? std::filesystem::path(file->path).filename().string() : std::string("generated");
    if (!section(flow, "From a file", name, open.own)) return;
    if (!file) {
        note(flow, "Your own head or figure: glTF or OBJ. Drop it on the window, or",
             flow.colour().text2);
        if (link(flow, "choose mesh", "choose a file…", flow.left)) flow.out.wish(Act::choose_mesh);
        flow.y += flow.row_height();
        flow.skip(6);
        return;
    }
    text_row(flow, "file", name);
    const std::string trouble = trouble_with(shown.studio, "subject.file");
    if (!trouble.empty()) {
        note(flow, trouble, flow.colour().danger);
        flow.skip(4);
    }
    file_rows(flow, *file);
    points(flow, shown);
    const float cy = flow.y + 0.5F * flow.row_height();
    bool remove = false;
    if (link(flow, "choose mesh", "another file…", flow.left)) flow.out.wish(Act::choose_mesh);
    link_right(flow.pen, "remove own file", "back to the generated sitter", flow.right, cy, remove);
    if (remove) {
        flow.out.wish(Act::place_point);
        flow.out.perform(together("generated sitter", {set_nothing("subject.file")}));
    }
    flow.y += flow.row_height();
    flow.skip(6);
}

} // namespace keystead::ui
