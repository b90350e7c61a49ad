#include "engine/ui/side_work.h"

#include "engine/ui/app.h"

namespace keystead::ui {

namespace {

KeptState* kept_with(App& app, int number, std::uint64_t revision) {
    for (KeptState& each : app.kept.list)
        if (each.number == number && each.revision == revision) return &each;
    return nullptr;
}

bool lacks(const KeptState& state) {
    return !state.studio || !state.review;
}

} // namespace

std::optional<SideWork::Asked> SideWork::missing(const App& app) const {
    const BuildOrder& order = app.build_order;
    if (const BuildStep* step = order.shown(app.revision()))
        if (!step->review) return Asked{0, static_cast<int>(order.at), order.revision};
    if (const KeptState* picked = app.kept.with(app.kept.picked))
        if (lacks(*picked)) return Asked{picked->number, -1, picked->revision};
    for (const KeptState& each : app.kept.list)
        if (lacks(each)) return Asked{each.number, -1, each.revision};
    // Steps that come next are made ready.
    if (order.shown(app.revision()) != nullptr)
        for (std::size_t i = 0; i < order.steps.size(); ++i)
            if (!order.steps[i].review) return Asked{0, static_cast<int>(i), order.revision};
    return std::nullopt;
}

void SideWork::ask(const App& app) {
    if (asked_ || !app.workshop || app.dragging()) return;
    const std::optional<Asked> wanted = missing(app);
    if (!wanted) return;
    // What the present set has in common with the other is not made twice.
    if (!app.studio) return;
    if (!workshop_) workshop_ = std::make_unique<Workshop>(app.wake);
    const KeptState* state = app.kept.with(wanted->kept);
    const Set& set = state != nullptr
                         ? *state->set
                         : app.build_order.steps[static_cast<std::size_t>(wanted->step)].drawn.set;
    asked_ = wanted;
    workshop_->request(++ticket_, set, true, app.folder(), app.taking.at_hand, app.studio);
}

bool SideWork::take(App& app) {
    if (!workshop_) return false;
    bool changed = false;
    for (Finished& each : workshop_->collect()) {
        if (!asked_ || each.revision != ticket_) continue;
        const bool of_build = asked_->step >= 0;
        const bool build_is_here =
            of_build && app.build_order.revision == asked_->revision &&
            static_cast<std::size_t>(asked_->step) < app.build_order.steps.size();
        BuildStep* step = build_is_here
                              ? &app.build_order.steps[static_cast<std::size_t>(asked_->step)]
                              : nullptr;
        KeptState* state = of_build ? nullptr : kept_with(app, asked_->kept, asked_->revision);
        if (each.studio) {
            if (step != nullptr) step->studio = each.studio;
            if (state != nullptr && !state->studio) state->studio = each.studio;
            changed = true;
        }
        if (!each.review) continue;
        auto review = std::make_shared<const Review>(std::move(*each.review));
        if (step != nullptr) step->review = review;
        if (state != nullptr && !state->review) state->review = review;
        asked_.reset();
        changed = true;
    }
    return changed;
}

} // namespace keystead::ui
