// Notes that were seen stay folded until what they say changes.
#include "engine/ui/findings_line.h"
#include "engine/ui/seen_notes.h"
#include "engine/ui/settings.h"
#include "tests/engine/ui/window_bench.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <unistd.h>

using namespace keystead;
using namespace keystead::ui;
using Bench = testing::WindowBench;

namespace {

const Finding remark{Level::note, "catchlight-none", "subject", "No catchlight in the left eye.",
                     ""};
const Finding caution{Level::warning, "support-caution", "rim", "8.4° to tip.", "Hang 6.8 kg."};
const Finding danger{Level::danger, "support-unstable", "key", "Falls toward the subject.", ""};

Review with(std::vector<Finding> findings) {
    Review review;
    review.findings = std::move(findings);
    return review;
}

} // namespace

TEST_CASE("A note that was seen is folded, and comes back when its figures change") {
    std::vector<SeenOfSet> all;
    mark_seen(all, "/a.json", caution, true);
    const auto* notes = seen_of(all, "/a.json");
    REQUIRE(notes != nullptr);
    const Review before = with({danger, caution, remark});
    CHECK(fold_seen(&before, notes).open == std::vector<std::size_t>{0, 2});
    CHECK(fold_seen(&before, notes).seen == std::vector<std::size_t>{1});
    Finding worse = caution;
    worse.message = "6.1° to tip.";
    Finding other = caution;
    other.about = "fill";
    const Review after = with({worse, other});
    CHECK(fold_seen(&after, notes).seen.empty());
    // Another set knows nothing of it.
    CHECK(seen_of(all, "/b.json") == nullptr);
    CHECK(fold_seen(&before, nullptr).open.size() == 3);
}

TEST_CASE("A danger can never be folded away") {
    std::vector<SeenOfSet> all;
    mark_seen(all, "/a.json", danger, true);
    CHECK(all.empty());
    CHECK_FALSE(is_seen({{danger.code, danger.about, danger.message}}, danger));
    // What was a caution when it was seen and is a danger now is told.
    Finding graver = caution;
    graver.level = Level::danger;
    CHECK_FALSE(is_seen({{caution.code, caution.about, caution.message}}, graver));
}

TEST_CASE("Seen notes are brought back, moved with the file, and few files are remembered") {
    std::vector<SeenOfSet> all;
    mark_seen(all, "", remark, true);
    mark_seen(all, "", remark, true);
    REQUIRE(all.size() == 1);
    CHECK(all[0].notes.size() == 1);
    seen_moved(all, "", "/new.json");
    CHECK(seen_of(all, "") == nullptr);
    REQUIRE(seen_of(all, "/new.json") != nullptr);
    mark_seen(all, "/new.json", remark, false);
    CHECK(all.empty());
    for (std::size_t i = 0; i < most_seen_sets + 5; ++i)
        mark_seen(all, "/" + std::to_string(i), remark, true);
    CHECK(all.size() == most_seen_sets);
    CHECK(all.front().file == "/" + std::to_string(most_seen_sets + 4));
}

TEST_CASE("Seen notes survive a run, but for sets without a file") {
    const std::filesystem::path file = std::filesystem::temp_directory_path() /
                                       ("keystead-seen-" + std::to_string(getpid()) + ".json");
    Settings settings;
    mark_seen(settings.seen, "/a.json", caution, true);
    mark_seen(settings.seen, "", remark, true);
    save_settings(settings, file);
    const Settings back = load_settings(file);
    std::filesystem::remove(file);
    REQUIRE(back.seen.size() == 1);
    CHECK(back.seen[0].file == "/a.json");
    REQUIRE(back.seen[0].notes.size() == 1);
    CHECK(is_seen(back.seen[0].notes, caution));
}

TEST_CASE("The findings line marks what its finding is about, and folds what was seen") {
    Bench bench("harbour-choir-short");
    Finding about_key = caution;
    about_key.about = "key";
    bench.app.review = with({about_key, remark});
    bench.app.review_revision = bench.app.revision();
    bench.frames(2);
    const Rect line = bench.layout().findings;
    bench.to({line.x + 20.0F, line.centre_y()});
    CHECK(bench.app.hovered == Selection{Thing::light, "key"});
    bench.app.selection = {};
    bench.click({line.x + 20.0F, line.centre_y()});
    CHECK(bench.app.selection == Selection{Thing::light, "key"});
    Outbox out;
    out.wish(Act::see_note, "0");
    carry_out(bench.app, out);
    REQUIRE(bench.app.seen() != nullptr);
    CHECK(findings_rows(&*bench.app.review, bench.app.seen()) == 2);
    bench.to({line.x + 20.0F, line.centre_y()});
    CHECK(bench.app.hovered == Selection{Thing::subject, {}});
    out.wish(Act::see_note, "1");
    carry_out(bench.app, out);
    bench.frames(1);
    CHECK(fold_seen(&*bench.app.review, bench.app.seen()).open.empty());
    out.wish(Act::toggle_findings), out.wish(Act::toggle_seen);
    carry_out(bench.app, out);
    bench.frames(2);
    out.wish(Act::unsee_note, "0");
    carry_out(bench.app, out);
    CHECK(fold_seen(&*bench.app.review, bench.app.seen()).open.size() == 1);
}
