#include "engine/ui/input_queue.h"

#include <catch2/catch.hpp>

using namespace keystead::ui;

TEST_CASE("A press is handed on where it happened, a frame after the pointer got there") {
    PointerQueue queue;
    queue.add({0, true, 10.0F, 20.0F});
    queue.add({0, false, 90.0F, 20.0F});
    float x = 400.0F, y = 400.0F;
    CHECK_FALSE(queue.next(x, y));
    CHECK(x == 10.0F);
    const auto press = queue.next(x, y);
    REQUIRE(press);
    CHECK(press->down);
    CHECK(x == 10.0F);
    CHECK_FALSE(queue.next(x, y));
    CHECK(x == 90.0F);
    const auto release = queue.next(x, y);
    REQUIRE(release);
    CHECK_FALSE(release->down);
    CHECK(queue.empty());
    x = 5.0F;
    CHECK_FALSE(queue.next(x, y));
    CHECK(x == 5.0F);
}

TEST_CASE("A key tapped between two frames is down for one of them") {
    KeyQueue queue;
    // Control down, Z down, Z up, control up: one slow frame's worth.
    queue.add({341, 0, 1, 0});
    queue.add({90, 0, 1, 2});
    queue.add({90, 0, 0, 2});
    queue.add({341, 0, 0, 0});
    const auto first = queue.next();
    REQUIRE(first.size() == 2);
    CHECK(first[1].key == 90);
    const auto second = queue.next();
    REQUIRE(second.size() == 2);
    CHECK(queue.empty());
}

TEST_CASE("A key tapped twice between two frames is two presses") {
    KeyQueue queue;
    for (int tap = 0; tap < 2; ++tap)
        for (const int action : {1, 0}) queue.add({267, 0, action, 0});
    int presses = 0;
    bool down = false;
    while (!queue.empty()) {
        const bool before = down;
        for (const KeyEvent& event : queue.next()) down = event.action != 0;
        presses += down && !before ? 1 : 0;
    }
    CHECK(presses == 2);
    CHECK_FALSE(down);
}
