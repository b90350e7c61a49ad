#include "engine/ui/label_place.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead::ui {

namespace {

const std::array<ImVec2, 8> sides{ImVec2(1, 0),      ImVec2(-1, 0),     ImVec2(0, 1),
                                  ImVec2(0, -1),     ImVec2(.8F, .8F),  ImVec2(-.8F, .8F),
                                  ImVec2(.8F, -.8F), ImVec2(-.8F, -.8F)};
constexpr int rings = 3;

/// Length of the part of a–b inside the box, by cutting the segment at its four sides.
float length_inside(const Rect& box, const ImVec2& a, const ImVec2& b) {
    float from = 0.0F, to = 1.0F;
    const auto cut = [&](float start, float step, float low, float high) {
        if (std::abs(step) < 1e-6F) return start >= low && start <= high;
        const float t0 = (low - start) / step, t1 = (high - start) / step;
        from = std::max(from, std::min(t0, t1));
        to = std::min(to, std::max(t0, t1));
        return from < to;
    };
    const ImVec2 d = b - a;
    if (!cut(a.x, d.x, box.x, box.right()) || !cut(a.y, d.y, box.y, box.bottom())) return 0.0F;
    return (to - from) * length_of(d);
}

Rect box_at(const Rect& about, float w, float h, float gap, const ImVec2& side, int ring) {
    const float out = gap * (1.0F + 1.6F * static_cast<float>(ring));
    const float cx = about.centre_x() + side.x * (0.5F * (about.w + w) + out);
    const float cy = about.centre_y() + side.y * (0.5F * (about.h + h) + out);
    return {std::floor(cx - 0.5F * w), std::floor(cy - 0.5F * h), w, h};
}

} // namespace

bool overlap(const Rect& a, const Rect& b) {
    return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

float LabelPlacer::cost(const Rect& box) const {
    float sum = 0.0F;
    const float area = std::max(1.0F, box.w * box.h);
    for (const Rect& other : boxes_) {
        if (!overlap(box, other)) continue;
        const float w = std::min(box.right(), other.right()) - std::max(box.x, other.x);
        const float h = std::min(box.bottom(), other.bottom()) - std::max(box.y, other.y);
        sum += 6.0F + 30.0F * w * h / area;
    }
    for (const auto& [a, b] : strokes_)
        sum += 3.0F * length_inside(box, a, b) / std::max(8.0F, box.h);
    // Outside the sheet is worse than anything on it.
    if (box.x < page_.x || box.y < page_.y || box.right() > page_.right() ||
        box.bottom() > page_.bottom())
        sum += 200.0F;
    return sum;
}

Rect LabelPlacer::place(const std::string& name, const Rect& about, float width, float height,
                        float gap, const ImVec2& preferred) {
    const auto remembered = memory_.find(name);
    const ImVec2 wanted = unit_of(preferred);
    int best = 0;
    float least = 1e30F;
    for (int i = 0; i < static_cast<int>(sides.size()) * rings; ++i) {
        const ImVec2 side = sides[static_cast<std::size_t>(i) % sides.size()];
        const int ring = i / static_cast<int>(sides.size());
        const ImVec2 toward = unit_of(side);
        float total =
            cost(box_at(about, width, height, gap, side, ring)) + 1.5F * static_cast<float>(ring);
        total += 1.2F * (1.0F - (toward.x * wanted.x + toward.y * wanted.y));
        if (remembered != memory_.end() && remembered->second == i) total -= 2.5F;
        if (total < least) least = total, best = i;
    }
    memory_[name] = best;
    const Rect box =
        box_at(about, width, height, gap, sides[static_cast<std::size_t>(best) % sides.size()],
               best / static_cast<int>(sides.size()));
    last_cost_ = cost(box);
    boxes_.push_back(box);
    return box;
}

} // namespace keystead::ui
