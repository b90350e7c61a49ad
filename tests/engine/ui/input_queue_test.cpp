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

TEST_CASE("What is written after Ctrl and A waits until those have been seen") {
    KeyQueue queue;
    // Control and A down and up, then 5 and its key, then Enter.
    queue.add({341, 0, 1, 0});
    queue.add({65, 0, 1, 2});
    queue.add({65, 0, 0, 2});
    queue.add({341, 0, 0, 0});
    queue.add({53, 0, 1, 0});
    queue.add({0, 0, 0, 0, U'5'});
    queue.add({53, 0, 0, 0});
    queue.add({257, 0, 1, 0});
    CHECK(queue.next().size() == 2); // Control and A down
    const auto second = queue.next();
    REQUIRE(second.size() == 4); // both up, then the key of 5 and the 5
    CHECK(second.back().character == U'5');
    CHECK(queue.next().size() == 2); // Enter may come with the key's release
    CHECK(queue.empty());
}

TEST_CASE("Keys wait for the click they came after, and a click for the keys before it") {
    KeyQueue keys;
    PointerQueue pointer;
    keys.add({340, 0, 1, 0, 0, 0});
    pointer.add({0, true, 1.0F, 1.0F, 1});
    keys.add({0, 0, 0, 0, U'x', 2});
    CHECK(keys.order() < pointer.order());
    CHECK(keys.next(pointer.order()).size() == 1);
    CHECK(keys.next(pointer.order()).empty());
    CHECK(pointer.order() < keys.order());
    float x = 0.0F, y = 0.0F;
    pointer.next(x, y), pointer.next(x, y);
    CHECK(keys.next(pointer.order()).size() == 1);
    CHECK(keys.order() == no_input);
}

TEST_CASE("A letter keeps its Ctrl although that was let go first") {
    KeyQueue queue;
    queue.add({341, 0, 1, 0});
    queue.add({66, 0, 1, 2});
    queue.add({341, 0, 0, 2});
    queue.add({66, 0, 0, 0});
    const auto first = queue.next();
    REQUIRE(first.size() == 2);
    CHECK(first[1].key == 66);
    CHECK(queue.next().size() == 2);
}
