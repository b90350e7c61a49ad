// Ten thousand edits in any order: what undo, redo, refusal, saving and replaying promise must hold
// whatever was done before.
#include "engine/edit/history.h"
#include "engine/edit/journal.h"
#include "sim/set/set_io.h"
#include "tests/engine/edit/demo_set.h"
#include "tests/engine/edit/random_commands.h"

#include <catch2/catch.hpp>
#include <deque>
#include <filesystem>
#include <unistd.h>

using namespace keystead;
using keystead::testing::RandomCommands;

namespace {

constexpr std::size_t steps_kept = 1000; ///< as the history says

/// RFC 3629: no bytes beyond the shortest form, no surrogates, nothing past U+10FFFF.
bool is_utf8(const std::string& text) {
    for (std::size_t i = 0; i < text.size();) {
        const auto lead = static_cast<unsigned char>(text[i]);
        const std::size_t more = lead < 0x80   ? 0
                                 : lead < 0xC2 ? 9
                                 : lead < 0xE0 ? 1
                                 : lead < 0xF0 ? 2
                                 : lead < 0xF5 ? 3
                                               : 9;
        if (more > 3 || i + more >= text.size()) return false;
        for (std::size_t k = 1; k <= more; ++k)
            if ((static_cast<unsigned char>(text[i + k]) & 0xC0U) != 0x80) return false;
        const auto next = static_cast<unsigned char>(more > 0 ? text[i + 1] : 0);
        if ((lead == 0xE0 && next < 0xA0) || (lead == 0xED && next > 0x9F) ||
            (lead == 0xF0 && next < 0x90) || (lead == 0xF4 && next > 0x8F))
            return false;
        i += more + 1;
    }
    return true;
}

bool is_one_line(const std::string& text) {
    return is_utf8(text) && std::none_of(text.begin(), text.end(), [](char c) {
               return static_cast<unsigned char>(c) < 0x20;
           });
}

struct Counts {
    int commands = 0, accepted = 0, refused = 0, undone = 0, redone = 0, drags = 0, saved = 0;
    void add(const Counts& more) {
        commands += more.commands, accepted += more.accepted, refused += more.refused;
        undone += more.undone, redone += more.redone, drags += more.drags, saved += more.saved;
    }
};

/// A history beside what its sets must print as.
class Session {
public:
    Session(std::uint64_t seed, Set start, int save_every)
        : commands_(seed)
        , start_(start)
        , history_(std::move(start))
        , first_(write_set(history_.set()))
        , now_(first_)
        , saved_(first_)
        , save_every_(save_every) {}

    void go(int commands) {
        while (counts.commands < commands) {
            const double die = commands_.dice().unit();
            if (die < 0.70)
                run();
            else if (die < 0.80)
                undo();
            else if (die < 0.87)
                redo();
            else if (die < 0.92)
                begin_drag();
            else if (die < 0.96)
                commit_drag();
            else if (die < 0.98)
                cancel_drag();
            else
                mark_saved();
            if (die >= 0.70) check(); // a command has been looked at already
        }
        commit_drag();
        check();
    }

    /// All the way back and all the way forward, then the journal from the start.
    void finish() {
        const std::string newest = redo_.empty() ? now_ : redo_.front();
        const std::string oldest = undo_.empty() ? now_ : undo_.front();
        while (!undo_.empty()) undo(), check();
        CHECK_FALSE(history_.undo());
        REQUIRE(write_set(history_.set()) == oldest);
        if (!lost_steps_) REQUIRE(write_set(history_.set()) == first_);
        const std::string undone = history_.journal();
        while (!redo_.empty()) redo(), check();
        CHECK_FALSE(history_.redo());
        REQUIRE(write_set(history_.set()) == newest);
        const auto again = replay(start_, history_.journal());
        if (!again) UNSCOPED_INFO(again.problem().message());
        REQUIRE(again);
        CHECK(write_set(again.value().set()) == write_set(history_.set()));
        CHECK(again.value().undo_label() == history_.undo_label());
        const auto half = replay(start_, undone);
        REQUIRE(half);
        CHECK(write_set(half.value().set()) == oldest);
    }

    Counts counts;

private:
    void run() {
        const Command command = commands_.next(history_.set());
        ++counts.commands;
        const std::uint64_t revision = history_.revision();
        const Outcome problem = history_.run(command);
        INFO(journal_text(command));
        if (problem) {
            ++counts.refused;
            INFO(problem->message());
            REQUIRE(history_.revision() == revision);
            REQUIRE(write_set(history_.set()) == now_);
            REQUIRE_FALSE(problem->path.empty());
            REQUIRE_FALSE(problem->allowed.empty());
            REQUIRE(is_one_line(problem->message()));
            return;
        }
        ++counts.accepted;
        REQUIRE(history_.revision() > revision);
        const std::string text = write_set(history_.set());
        survive(text);
        if (dragging_) {
            moved_ = true;
        } else {
            push(now_);
            REQUIRE(is_one_line(history_.undo_label()));
        }
        now_ = text;
    }

    static std::string journal_text(const Command& command) {
        try {
            return journal_line(command);
        } catch (const std::exception& error) {
            return error.what();
        }
    }

    void survive(const std::string& text) {
        REQUIRE_FALSE(validate(history_.set()));
        if (counts.accepted % save_every_ != 0) return;
        const auto file = std::filesystem::temp_directory_path() /
                          ("keystead-random-" + std::to_string(::getpid()) + ".json");
        REQUIRE_FALSE(save_set(history_.set(), file));
        const auto loaded = load_set(file);
        std::filesystem::remove(file);
        std::filesystem::remove(file.string() + "~");
        REQUIRE(loaded);
        REQUIRE(write_set(loaded.value().set) == text);
    }

    void push(const std::string& before) {
        undo_.push_back(before);
        if (undo_.size() > steps_kept) undo_.pop_front(), lost_steps_ = true;
        redo_.clear();
    }
    void undo() {
        const bool can = !dragging_ && !undo_.empty();
        REQUIRE(history_.can_undo() == can);
        REQUIRE(history_.undo() == can);
        if (!can) return;
        redo_.push_back(now_);
        now_ = undo_.back();
        undo_.pop_back();
        ++counts.undone;
    }
    void redo() {
        const bool can = !dragging_ && !redo_.empty();
        REQUIRE(history_.can_redo() == can);
        REQUIRE(history_.redo() == can);
        if (!can) return;
        undo_.push_back(now_);
        now_ = redo_.back();
        redo_.pop_back();
        ++counts.redone;
    }
    void begin_drag() {
        history_.begin_drag();
        if (dragging_) return;
        dragging_ = true, moved_ = false, before_drag_ = now_;
        ++counts.drags;
    }
    void commit_drag() {
        history_.commit_drag();
        if (dragging_ && moved_) push(before_drag_);
        dragging_ = false;
    }
    void cancel_drag() {
        history_.cancel_drag();
        if (dragging_) now_ = before_drag_;
        dragging_ = false;
    }
    void mark_saved() {
        history_.mark_saved();
        saved_ = now_;
        ++counts.saved;
        REQUIRE_FALSE(history_.dirty());
    }
    void check() {
        REQUIRE(history_.dragging() == dragging_);
        REQUIRE(write_set(history_.set()) == now_);
        if (!history_.dirty()) REQUIRE(now_ == saved_);
    }

    RandomCommands commands_;
    Set start_;
    History history_;
    std::string first_, now_, saved_, before_drag_;
    std::deque<std::string> undo_, redo_;
    int save_every_;
    bool dragging_ = false, moved_ = false, lost_steps_ = false;
};

const std::vector<const char*> demo_sets{"lantern-maker.json", "night-baker.json",
                                         "harbour-choir-broad.json", "attic-tailor.json",
                                         "overreach.json"};

/// `sessions` of `commands` each, over the example sets in turn.
Counts play(int sessions, int commands, int save_every) {
    Counts all;
    for (int i = 0; i < sessions; ++i) {
        const char* name = demo_sets[static_cast<std::size_t>(i) % demo_sets.size()];
        INFO("seed " << i << ", " << name);
        Session session(static_cast<std::uint64_t>(i), demo(name), save_every);
        session.go(commands);
        session.finish();
        all.add(session.counts);
    }
    return all;
}

void tell(const Counts& counts) {
    WARN(counts.commands << " commands: " << counts.accepted << " accepted, " << counts.refused
                         << " refused; " << counts.undone << " undone, " << counts.redone
                         << " redone, " << counts.drags << " drags, " << counts.saved << " saved");
}

} // namespace

TEST_CASE("Random edits keep what undo, redo, saving and the journal promise", "[edit][random]") {
    const Counts counts = play(10, 500, 8);
    CHECK(counts.commands == 5000);
    CHECK(counts.accepted > 1500);
    CHECK(counts.refused > 1000);
    CHECK(counts.drags > 100);
}

TEST_CASE("Ten thousand random edits, every accepted set saved and read again",
          "[.long][edit][random]") {
    tell(play(10, 1000, 1));
}

TEST_CASE("Ten thousand random edits of one set, past the end of the undo list",
          "[.long][edit][random]") {
    tell(play(1, 10000, 10));
}
