#include "engine/ui/taking_panel.h"

#include "engine/ui/own_section.h"
#include "engine/ui/side_panel.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

constexpr std::size_t offers_shown = 4;
const std::vector<std::string> units{"millimetres", "centimetres", "metres", "inches", "feet"};
const std::vector<std::string> axes{"X", "Y", "Z"};

std::string grouped(std::size_t count) {
    std::string digits = std::to_string(count);
    for (std::size_t at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, " ");
    return digits;
}

void progress(Flow& flow, const MeshReading& now, bool whole) {
    const int percent = static_cast<int>(std::lround(100.0 * now.share));
    note(flow, now.doing + (whole ? ", " + std::to_string(percent) + " %" : "…"),
         flow.colour().text2);
    const Rect bar{flow.left, flow.y + flow.px(4), flow.right - flow.left,
                   std::max(2.0F, flow.px(3))};
    fill_rect(flow.pen, bar, flow.colour().line);
    const float share = whole ? static_cast<float>(now.share) : 1.0F;
    fill_rect(flow.pen, {bar.x, bar.y, std::floor(bar.w * share), bar.h},
              whole ? flow.colour().accent : faded(flow.colour().accent, 0.5F));
    flow.skip(14);
}

bool wide_button(Flow& flow, const char* id, const std::string& words, ButtonKind kind) {
    const Rect rect{flow.left, flow.y, flow.right - flow.left, flow.px(26)};
    flow.skip(32);
    return button(flow.pen, id, rect, words, kind);
}

/// One way to read the numbers; the chosen one says why it is offered.
bool offer_row(Flow& flow, const ReadMesh& read, std::size_t i, bool chosen) {
    const UnitOffer& offer = read.guess.offers[i];
    const Palette& c = flow.colour();
    const Fonts& font = flow.pen.theme->font;
    const float inner = flow.left + flow.px(20);
    const std::vector<std::string> reason =
        chosen ? wrapped(font.small, offer.reason, flow.right - inner) : std::vector<std::string>();
    const Rect area{flow.left - flow.px(6), flow.y, flow.right - flow.left + flow.px(6),
                    flow.px(26) + flow.px(16) * static_cast<float>(reason.size())};
    const Hit hit = hit_area("offer " + std::to_string(i), area);
    if (hit.hovered) fill_rect(flow.pen, area, c.hover, 3.0F);
    const float cy = flow.y + flow.px(13);
    ring(flow.pen, {flow.left + flow.px(6), cy}, flow.px(5), 1.0F, chosen ? c.accent : c.text3);
    if (chosen) disc(flow.pen, {flow.left + flow.px(6), cy}, flow.px(2.5F), c.accent);
    text_at(flow.pen, chosen ? font.medium : font.body, inner, cy, c.text,
            number_text(100.0 * offer.height_m, 1) + " cm tall");
    text_right(flow.pen, font.small, flow.right, cy, c.text2,
               units[static_cast<std::size_t>(offer.unit)] + ", " +
                   axes[static_cast<std::size_t>(offer.up)] + " up");
    float y = flow.y + flow.px(26 + 6);
    for (const std::string& words : reason) {
        text_at(flow.pen, font.small, inner, y, c.text2, words);
        y += flow.px(16);
    }
    flow.y = area.bottom() + flow.px(4);
    return hit.clicked;
}

std::string choice_text(LengthUnit unit, UpAxis up) {
    return std::to_string(static_cast<int>(unit)) + " " + std::to_string(static_cast<int>(up));
}

void offers(Flow& flow, const TakingIn& taking) {
    const ReadMesh& read = *taking.now.read;
    const std::size_t count = std::min(offers_shown, read.guess.offers.size());
    note(flow,
         read.guess.clear ? "The file does not say its unit; one reading is far likelier."
                          : "The file does not say its unit, and more than one is likely.",
         flow.colour().text2);
    flow.skip(6);
    for (std::size_t i = 0; i < count; ++i) {
        const UnitOffer& offer = read.guess.offers[i];
        if (offer_row(flow, read, i, offer.unit == taking.unit && offer.up == taking.up))
            flow.out.wish(Act::choose_unit, choice_text(offer.unit, offer.up));
    }
    const int unit = choice_row(flow, "its unit", "taking unit",
                                units[static_cast<std::size_t>(taking.unit)], units);
    if (unit >= 0)
        flow.out.wish(Act::choose_unit, choice_text(static_cast<LengthUnit>(unit), taking.up));
    const int up = choice_row(flow, "its axis that points up", "taking up",
                              axes[static_cast<std::size_t>(taking.up)], axes);
    if (up >= 0) flow.out.wish(Act::choose_unit, choice_text(taking.unit, static_cast<UpAxis>(up)));
    text_row(flow, "so its height is",
             number_text(100.0 * height_m(read, taking.unit, taking.up), 1) + " cm");
    flow.skip(8);
}

void face(Flow& flow, const TakingIn& taking) {
    if (taking.now.busy) return progress(flow, taking.now, false);
    if (!taking.now.fitted) return;
    const HeadLandmarks& head = taking.now.fitted->stored->landmarks;
    note(flow, head.remark, flow.colour().text2);
    const std::array<const std::optional<HeadPoint>*, 5> points{
        &head.nose_tip, &head.pupil_left, &head.pupil_right, &head.chin, &head.top};
    for (std::size_t i = 0; i < points.size(); ++i)
        text_row(flow, own_point_words[i], found_words(*points[i]));
    note(flow, "As subject, each can be placed by a click in the picture.", flow.colour().text3);
    flow.skip(8);
}

void notes(Flow& flow, const ReadMesh& read) {
    for (const std::string& words : read.imported.notes) note(flow, words, flow.colour().text3);
    flow.skip(8);
}

} // namespace

void taking_panel(Flow& flow, const TakingIn& taking) {
    const MeshReading& now = taking.now;
    std::string second = "is being read";
    if (now.problem) second = "cannot be used";
    if (now.read)
        second = grouped(now.read->imported.mesh.triangles.size()) + " triangles, " +
                 (now.read->imported.format == MeshFormat::gltf ? "glTF" : "OBJ");
    panel_title(flow, taking.file.filename().string(), second);
    if (now.problem) {
        note(flow, now.problem->message() + ".", flow.colour().danger);
        flow.skip(10);
        if (wide_button(flow, "another file", "choose another file", ButtonKind::plain))
            flow.out.wish(Act::choose_mesh);
    } else if (!now.read) {
        progress(flow, now, true);
    } else {
        offers(flow, taking);
        const bool waits = taking.take_when_ready.has_value();
        if (waits) note(flow, "It goes into the set as soon as it is ready.", flow.colour().text2);
        if (!waits && wide_button(flow, "take subject", "use as the subject", ButtonKind::accent))
            flow.out.wish(Act::take_subject);
        if (!waits &&
            wide_button(flow, "take prop", "stand it in the room as a prop", ButtonKind::plain))
            flow.out.wish(Act::take_prop);
    }
    const char* words = now.problem ? "leave it" : now.busy ? "stop" : "leave it out";
    if (wide_button(flow, "stop taking", words, ButtonKind::plain)) flow.out.wish(Act::stop_mesh);
    if (now.read) {
        flow.skip(4);
        face(flow, taking);
        notes(flow, *now.read);
    }
    hairline(flow);
}

} // namespace keystead::ui
