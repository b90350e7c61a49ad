#include "engine/ui/footprint_card.h"

#include "engine/ui/label_place.h"
#include "engine/ui/marks.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

/// The card's own small plan, centred on the column.
struct Card {
    Pen pen;
    Rect rect;
    ImVec2 middle;
    Vec2 centre_m;
    float px_per_m;
    ImVec2 at(const Vec2& p) const {
        return {middle.x + static_cast<float>(p.x - centre_m.x) * px_per_m,
                middle.y + static_cast<float>(p.y - centre_m.y) * px_per_m};
    }
    ImVec2 at(const Vec3& p) const { return at(Vec2(p.x, p.z)); }
};

Card card_of(Pen pen, const Rect& rect, const SupportPose& pose, const Stability& s) {
    Bounds bounds;
    for (const Vec2& p : s.polygon_m) bounds.add(p);
    for (const Vec3& p : pose.feet_m) bounds.add({p.x, p.z});
    bounds.add({s.com_m.x, s.com_m.z});
    const Vec2 size = glm::max(bounds.high - bounds.low, Vec2(0.3));
    const float scale = std::min((rect.w - pen.px(110)) / static_cast<float>(size.x),
                                 (rect.h - pen.px(44)) / static_cast<float>(size.y));
    return {pen,
            rect,
            {rect.centre_x() + pen.px(6), rect.centre_y() + pen.px(4)},
            0.5 * (bounds.low + bounds.high),
            scale};
}

void draw_feet(const Card& card, const Light& light, const SupportPose& pose) {
    const Palette& c = card.pen.colour();
    const Base& base = light.support.base;
    const ImVec2 column = card.at(pose.hub_m);
    const float leg = std::max(3.0F, 0.028F * card.px_per_m);
    for (const Vec3& foot_m : pose.feet_m) {
        const ImVec2 foot = card.at(foot_m);
        const Points leg_bar = bar(column, foot, leg);
        fill_convex(card.pen, leg_bar, c.page);
        stroke(card.pen, leg_bar, true, 1.0F, c.ink2);
        if (!base.wheels) continue;
        const auto reach =
            std::max(4.0F, static_cast<float>(base.caster_offset_m + 0.035) * card.px_per_m);
        dashed(card.pen, ellipse(foot, reach, reach, 0.0F), true, dash::dots, 1.0F, c.ink2);
        fill_convex(card.pen,
                    bar(foot - unit_of(foot - column) * (0.4F * reach),
                        foot + unit_of(foot - column) * (0.6F * reach), 0.45F * reach),
                    c.ink2);
    }
    const float tube =
        std::max(4.0F, static_cast<float>(light.support.column.tube_diameter_m) * card.px_per_m);
    disc(card.pen, column, tube, c.page);
    ring(card.pen, column, tube, 1.0F, c.ink);
    disc(card.pen, column, 0.4F * tube, c.ink2);
}

void draw_arm(const Card& card, const Light& light, const SupportPose& pose) {
    if (!light.support.arm) return;
    const Palette& c = card.pen.colour();
    const ImVec2 pivot = card.at(pose.column_top_m), tip = card.at(pose.tip_m),
                 tail = card.at(pose.tail_end_m);
    const ImVec2 side = normal_of(unit_of(tip - tail)) * card.pen.px(2);
    dashed(card.pen, tail + side, tip + side, dash::arm, 1.0F, c.ink2);
    dashed(card.pen, tail - side, tip - side, dash::arm, 1.0F, c.ink2);
    if (light.support.arm->counterweight) {
        const ImVec2 at = card.at(pose.counterweight_m), along = unit_of(tip - pivot);
        fill_convex(card.pen,
                    bar(at - along * card.pen.px(5), at + along * card.pen.px(5), card.pen.px(9)),
                    c.ink2);
    }
}

void draw_edges(const Card& card, const Stability& s) {
    const Palette& c = card.pen.colour();
    Points polygon;
    for (const Vec2& p : s.polygon_m) polygon.push_back(card.at(p));
    fill_shape(card.pen, polygon, faded(c.accent, 0.10F));
    stroke(card.pen, polygon, true, 1.0F, c.ink);
    if (s.weakest_edge < 0 || s.weakest_edge >= static_cast<int>(s.edges.size())) return;
    const PolygonEdge& weak = s.edges[static_cast<std::size_t>(s.weakest_edge)];
    line(card.pen, card.at(weak.from_m), card.at(weak.to_m), 3.5F,
         s.worst_margin_m <= 0.0 ? c.danger : c.accent);
}

/// Perpendicular from the plumb mark to the weakest edge, and how long it is.
void draw_margin(const Card& card, const Stability& s, LabelPlacer& labels) {
    if (s.weakest_edge < 0 || s.weakest_edge >= static_cast<int>(s.edges.size())) return;
    const Palette& c = card.pen.colour();
    const PolygonEdge& weak = s.edges[static_cast<std::size_t>(s.weakest_edge)];
    const ImVec2 mark = card.at(s.com_m),
                 out(static_cast<float>(std::sin(radians(weak.outward_deg))),
                     static_cast<float>(std::cos(radians(weak.outward_deg))));
    const ImVec2 foot = mark + out * (static_cast<float>(s.margin_m) * card.px_per_m);
    const ImU32 colour = s.margin_m <= 0.0 ? c.danger : c.accent;
    line(card.pen, mark, foot, 1.0F, colour);
    line(card.pen, foot - normal_of(out) * card.pen.px(4), foot + normal_of(out) * card.pen.px(4),
         1.0F, colour);
    plumb_mark(card.pen, mark, 6.0F, c.ink, c.page);
    const ImFont* font = card.pen.theme->font.small_medium;
    const bool outside = s.margin_m <= 0.0;
    const std::string words =
        in_units(number_text(std::abs(s.margin_m), 2) + (outside ? " m outside" : " m"),
                 card.pen.theme->units);
    const float w = width_of(font, words);
    const Rect about{
        std::min(mark.x, foot.x) - card.pen.px(7), std::min(mark.y, foot.y) - card.pen.px(7),
        std::abs(mark.x - foot.x) + card.pen.px(14), std::abs(mark.y - foot.y) + card.pen.px(14)};
    const Rect box = labels.place("margin", about, w, font->FontSize, card.pen.px(3), out);
    text_knocked_out(card.pen, font, box.centre_x(), box.centre_y(), colour, words);
}

void draw_bags(const Card& card, const Light& light, const SupportPose& pose, LabelPlacer& labels) {
    const Palette& c = card.pen.colour();
    const ImFont* font = card.pen.theme->font.small;
    for (std::size_t i = 0; i < pose.bags_m.size(); ++i) {
        const Bag& bag = light.support.bags[i];
        const ImVec2 at = card.at(pose.bags_m[i]);
        const float rx = std::max(card.pen.px(7), 0.10F * card.px_per_m),
                    ry = bag.hanging ? 0.62F * rx : 0.4F * rx;
        const Points outline = ellipse(at, rx, ry, 0.35F);
        solid(card.pen, outline, {20.0F, 3.0F, bag.hanging ? c.ink2 : faded(c.ink2, 0.4F)}, 1.4F,
              bag.hanging ? c.ink : c.ink2);
        const std::string words =
            in_units(number_text(bag.mass_kg, 1) + " kg", card.pen.theme->units);
        const Rect about{at.x - rx, at.y - ry, 2 * rx, 2 * ry};
        labels.avoid(about);
        const ImVec2 away = at - card.middle;
        const Rect box = labels.place("bag " + std::to_string(i), about, width_of(font, words),
                                      font->FontSize, card.pen.px(8), away);
        const float end =
            box.centre_x() > at.x ? box.x - card.pen.px(3) : box.right() + card.pen.px(3);
        line(card.pen, at + unit_of(ImVec2(end, box.centre_y()) - at) * ry, {end, box.centre_y()},
             1.0F, c.ink2);
        text_at(card.pen, font, box.x, box.centre_y(), c.ink, words);
    }
}

/// Which way the subject is, in the corner where there is most room for it.
void draw_subject_arrow(const Card& card, const SupportPose& pose) {
    const Palette& c = card.pen.colour();
    const ImVec2 way =
        unit_of(ImVec2(static_cast<float>(-pose.hub_m.x), static_cast<float>(-pose.hub_m.z)));
    if (length_of(way) < 0.5F) return;
    const ImFont* font = card.pen.theme->font.small;
    const float cy = card.rect.bottom() - card.pen.px(14), x = card.rect.right() - card.pen.px(12);
    const float left = text_right(card.pen, font, x, cy, c.ink2, "subject");
    const ImVec2 centre{left - card.pen.px(14), cy};
    line(card.pen, centre - way * card.pen.px(8), centre + way * card.pen.px(4), 1.0F, c.ink2);
    arrow_head(card.pen, centre + way * card.pen.px(9), way, c.ink2);
}

} // namespace

void footprint_card(Flow& flow, const Light& light, const SupportPose& pose,
                    const Stability& stability) {
    const float height = flow.px(flow.compact ? 150 : 184);
    const Rect rect{flow.left - flow.px(20), flow.y, flow.right - flow.left + flow.px(24), height};
    const Palette& c = flow.colour();
    fill_rect(flow.pen, rect, c.page, 2.0F);
    const ImFont* font = flow.pen.theme->font.small;
    text_at(flow.pen, font, rect.x + flow.px(12), rect.y + flow.px(14), c.ink2, "feet from above");
    flow.pen.list->PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    const Card card = card_of(flow.pen, rect, pose, stability);
    LabelMemory memory;
    LabelPlacer labels(inset(rect, flow.px(4)), memory);
    labels.avoid({rect.x, rect.y, flow.px(110), flow.px(24)});
    labels.avoid(
        {rect.right() - flow.px(80), rect.bottom() - flow.px(26), flow.px(80), flow.px(26)});
    for (const Vec3& foot : pose.feet_m) labels.avoid_line(card.at(pose.hub_m), card.at(foot));
    for (const PolygonEdge& edge : stability.edges)
        labels.avoid_line(card.at(edge.from_m), card.at(edge.to_m));
    if (light.support.arm) labels.avoid_line(card.at(pose.tip_m), card.at(pose.tail_end_m));
    draw_edges(card, stability);
    draw_arm(card, light, pose);
    draw_feet(card, light, pose);
    draw_bags(card, light, pose, labels);
    draw_margin(card, stability, labels);
    draw_subject_arrow(card, pose);
    flow.pen.list->PopClipRect();
    flow.y += height;
}

} // namespace keystead::ui
