#include "engine/edit/become.h"

#include "engine/edit/history.h"
#include "engine/edit/journal.h"
#include "sim/set/catalogue.h"
#include "sim/set/set_io.h"

#include <catch2/catch.hpp>
#include <filesystem>

using namespace keystead;

namespace {

std::vector<Set> all_examples() {
    std::vector<Set> sets;
    for (const auto& entry : std::filesystem::directory_iterator(assets_folder() / "sets")) {
        if (entry.path().extension() != ".json") continue;
        Result<LoadedSet> loaded = load_set(entry.path());
        REQUIRE(loaded);
        sets.push_back(std::move(loaded).value().set);
    }
    REQUIRE(sets.size() > 3);
    return sets;
}

} // namespace

TEST_CASE("Any set becomes any other in one step, byte for byte, and undo brings it back",
          "[edit]") {
    const std::vector<Set> sets = all_examples();
    for (const Set& from : sets)
        for (const Set& to : sets) {
            INFO(from.name << " to " << to.name);
            History history(from);
            const Batch step = become(from, to, "take kept 1 back");
            if (step.commands.empty()) {
                CHECK(write_set(from) == write_set(to));
                continue;
            }
            const Outcome problem = history.run(Command(step));
            INFO((problem ? problem->message() : ""));
            REQUIRE_FALSE(problem);
            CHECK(write_set(history.set()) == write_set(to));
            CHECK(history.undo_label() == "take kept 1 back");
            history.undo();
            CHECK(write_set(history.set()) == write_set(from));
            CHECK_FALSE(history.can_undo());
        }
}

TEST_CASE("Only the parts that differ are put in place", "[edit]") {
    const Set from = all_examples().front();
    Set to = from;
    to.room.ceiling_m += 0.25;
    const Batch step = become(from, to, "");
    REQUIRE(step.commands.size() == 1);
    const auto* value = std::get_if<SetValue>(&step.commands.front());
    REQUIRE(value != nullptr);
    CHECK(value->path == "room");
    CHECK(become(from, from, "").commands.empty());
    // It goes through the journal like any command.
    const Result<Command> read = read_journal_line(journal_line(Command(step)));
    REQUIRE(read);
    const Result<Set> again = keystead::apply(from, read.value());
    REQUIRE(again);
    CHECK(write_set(again.value()) == write_set(to));
}
