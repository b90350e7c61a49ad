// Where labels go: each tries places round its anchor and takes the one that covers least.
#pragma once

#include "engine/ui/ink.h"

#include <map>
#include <string>
#include <vector>

namespace keystead::ui {

/// Remembered between frames so that a label only moves when its place has become clearly worse.
using LabelMemory = std::map<std::string, int>;

class LabelPlacer {
public:
    LabelPlacer(const Rect& page, LabelMemory& memory)
        : page_(page)
        , memory_(memory) {}

    void avoid(const Rect& box) { boxes_.push_back(box); }
    void avoid_line(const ImVec2& a, const ImVec2& b) { strokes_.push_back({a, b}); }

    /// Top left corner for a label of that size near the box of the thing it names. `preferred` is
    /// the direction (page) it would rather stand in. The place is taken for later labels.
    Rect place(const std::string& name, const Rect& about, float width, float height, float gap,
               const ImVec2& preferred);

    /// What the last label placed covers: 0 nothing, above about 8 too much to be worth it.
    float last_cost() const { return last_cost_; }
    /// Takes the last label back.
    void forget_last() { boxes_.pop_back(); }

private:
    float cost(const Rect& box) const;

    Rect page_;
    LabelMemory& memory_;
    float last_cost_ = 0.0F;
    std::vector<Rect> boxes_;
    std::vector<std::pair<ImVec2, ImVec2>> strokes_;
};

bool overlap(const Rect& a, const Rect& b);

} // namespace keystead::ui
