// Whatever validation lets through must be drawn, built and judged without harm.
#include "engine/edit/history.h"
#include "engine/ui/drawn.h"
#include "sim/review/review.h"
#include "tests/engine/edit/demo_set.h"
#include "tests/engine/edit/random_commands.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

bool finite(const Vec3& v) {
    return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z);
}

void draw(const Set& set) {
    const ui::Drawn drawn = ui::draw_set(set, nullptr);
    REQUIRE(drawn.poses.size() == set.lights.size());
    for (const SupportPose& pose : drawn.poses) {
        REQUIRE(finite(pose.emitter_m));
        REQUIRE(finite(pose.beam_direction));
    }
    for (const Stability& stands : drawn.stability) {
        REQUIRE(std::isfinite(stands.mass_kg));
        REQUIRE(std::isfinite(stands.margin_m));
        REQUIRE(std::isfinite(stands.tip_angle_deg));
        REQUIRE_FALSE(std::isnan(stands.push_to_tip_n));
    }
}

/// Without the passes that cast many rays.
void judge(const Set& set, std::shared_ptr<const Studio>& studio) {
    studio = make_studio(set, studio);
    for (const Emitter& emitter : studio->emitters) REQUIRE(finite(emitter.centre_m));
    ReviewOptions quick;
    quick.margins = quick.bounce = false;
    const Review review = review_set(*studio, quick);
    REQUIRE(review.supports.size() >= set.lights.size());
    REQUIRE(parse_json(review_json(review)));
    REQUIRE_FALSE(review_text(review).empty());
}

/// `sets` accepted ones on the way from an example, `apart` edits from each other.
template <class Look>
void walk(std::uint64_t seed, const char* name, int sets, int apart, Look look) {
    testing::RandomCommands commands(seed);
    History history(demo(name));
    for (int found = 0; found < sets;) {
        for (int accepted = 0; accepted < apart;) {
            if (commands.dice().chance(0.1)) history.undo();
            if (!history.run(commands.next(history.set()))) ++accepted;
        }
        // Far from the example there are few lights left to look at.
        if (++found % 25 == 0) history = History(demo(name));
        INFO("seed " << seed << ", " << name << ", set " << found << "\n"
                     << write_set(history.set()).substr(0, 20000));
        look(history.set());
    }
}

} // namespace

TEST_CASE("Random sets that are allowed are drawn and built", "[edit][random]") {
    walk(71, "lantern-maker.json", 300, 3, draw);
    std::shared_ptr<const Studio> studio;
    walk(72, "night-baker.json", 4, 6, [&](const Set& set) { judge(set, studio); });
}

TEST_CASE("Three hundred random sets that are allowed are built and judged",
          "[.long][edit][random]") {
    std::uint64_t seed = 80;
    for (const char* name :
         {"lantern-maker.json", "night-baker.json", "overreach.json", "attic-tailor.json"}) {
        std::shared_ptr<const Studio> studio;
        walk(seed++, name, 75, 4, [&](const Set& set) { judge(set, studio); });
    }
}
