#include "engine/edit/history.h"

#include "engine/edit/journal.h"
#include "sim/set/set_io.h"
#include "tests/sim/set/example_set.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

SetValue height(double metres) {
    return {"lights[key].support.column.height_m", std::to_string(metres)};
}
double height_of(const History& history) {
    return history.set().lights[0].support.column.height_m;
}

} // namespace

TEST_CASE("Undo and redo walk through the same sets", "[edit][history]") {
    History history(example::set());
    const std::string start = write_set(history.set());
    REQUIRE_FALSE(history.run(height(2.2)));
    REQUIRE_FALSE(history.run(RemoveLight{"rim"}));
    const std::string end = write_set(history.set());
    CHECK(history.undo_label() == "remove rim");
    CHECK(history.undo());
    CHECK(history.undo());
    CHECK_FALSE(history.undo());
    CHECK(write_set(history.set()) == start);
    CHECK(history.redo());
    CHECK(history.redo());
    CHECK_FALSE(history.redo());
    CHECK(write_set(history.set()) == end);
}

TEST_CASE("A new edit after an undo forgets what was undone", "[edit][history]") {
    History history(example::set());
    REQUIRE_FALSE(history.run(height(2.2)));
    history.undo();
    REQUIRE_FALSE(history.run(height(2.5)));
    CHECK_FALSE(history.can_redo());
    CHECK(height_of(history) == Approx(2.5));
}

TEST_CASE("A refused command changes nothing", "[edit][history]") {
    History history(example::set());
    const std::uint64_t revision = history.revision();
    CHECK(history.run(height(99)));
    CHECK(history.revision() == revision);
    CHECK_FALSE(history.can_undo());
    CHECK_FALSE(history.dirty());
    CHECK(history.journal().empty());
}

TEST_CASE("A drag is one step however often it moved", "[edit][history]") {
    History history(example::set());
    const double before = height_of(history);
    history.begin_drag();
    for (int i = 0; i < 50; ++i) CHECK_FALSE(history.run(height(2.0 + 0.01 * i)));
    CHECK(history.run(height(99))); // the limit pushes back, the drag goes on
    history.commit_drag();
    CHECK(height_of(history) == Approx(2.49));
    CHECK(history.undo_label() == "column height of key");
    history.undo();
    CHECK(height_of(history) == before);
    CHECK_FALSE(history.can_undo());
}

TEST_CASE("A cancelled drag leaves no trace but a newer revision", "[edit][history]") {
    History history(example::set());
    const std::string before = write_set(history.set());
    history.begin_drag();
    REQUIRE_FALSE(history.run(height(2.7)));
    const std::uint64_t dragged = history.revision();
    history.cancel_drag();
    CHECK(write_set(history.set()) == before);
    CHECK(history.revision() > dragged);
    CHECK_FALSE(history.can_undo());
    CHECK_FALSE(history.dirty());
    history.begin_drag();
    history.commit_drag();
    CHECK_FALSE(history.can_undo());
}

TEST_CASE("The set is dirty until saved, and clean again when undo comes back to the saved one",
          "[edit][history]") {
    History history(example::set());
    CHECK_FALSE(history.dirty());
    REQUIRE_FALSE(history.run(height(2.2)));
    CHECK(history.dirty());
    history.mark_saved();
    REQUIRE_FALSE(history.run(height(2.3)));
    history.undo();
    CHECK_FALSE(history.dirty());
    history.undo();
    CHECK(history.dirty());
}

TEST_CASE("The journal played again gives the same set and the same undo list", "[edit][history]") {
    History history(example::set());
    REQUIRE_FALSE(history.run(height(2.2)));
    REQUIRE_FALSE(history.run(AddLight{"", "fill", "standard-24", "", "umbrella-100"}));
    history.begin_drag();
    for (const double x : {0.1, 0.2, 0.3})
        REQUIRE_FALSE(history.run(Batch{
            "",
            {SetValue{"lights[fill].support.base.position_m", "[" + std::to_string(x) + ", 2]"},
             SetValue{"lights[fill].support.base.turn_deg", "170"}}}));
    history.commit_drag();
    REQUIRE_FALSE(history.run(RemoveLight{"rim"}));
    history.undo();
    const auto again = replay(example::set(), history.journal());
    REQUIRE(again);
    CHECK(write_set(again.value().set()) == write_set(history.set()));
    CHECK(again.value().undo_label() == history.undo_label());
    CHECK(again.value().redo_label() == "remove rim");
}

TEST_CASE("A journal that does not fit stops with its line", "[edit][history]") {
    const auto broken = replay(example::set(), "{\"remove_light\":\"rim\"}\nnonsense\n");
    REQUIRE_FALSE(broken);
    CHECK(broken.problem().message().find("journal line 2") == 0);
    CHECK_FALSE(read_journal_line("{\"jump\": 3}"));
    CHECK_FALSE(read_journal_line("[]"));
}
