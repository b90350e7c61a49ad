// kill -9 at any moment: no file is broken and nothing older than two seconds is lost.
#include "engine/ui/recovery.h"
#include "tests/engine/ui/killed_session.h"
#include "tests/engine/ui/sets.h"

#include <algorithm>
#include <csignal>
#include <random>
#include <sys/wait.h>
#include <unistd.h>

using namespace keystead;
using namespace keystead::ui;
using namespace keystead::ui::testing;
namespace fs = std::filesystem;

namespace {

constexpr double most_lost_s = 2.0;

struct Folder {
    fs::path path = fs::temp_directory_path() / ("keystead-kill-" + std::to_string(::getpid()));
    Folder() { fs::create_directories(path); }
    ~Folder() { fs::remove_all(path); }
};

struct Tally {
    int kills = 0, copies = 0, in_saving = 0, strays = 0;
    double worst_lost_s = 0.0, sum_lost_s = 0.0;
};

std::size_t hash_of_set(const Set& set) {
    return hash_of_text(write_set(set));
}

/// The file holds what was last saved, or was just being saved.
bool was_saved(const std::vector<Told>& told, std::size_t set) {
    for (auto it = told.rbegin(); it != told.rend(); ++it) {
        if (it->what == Told::What::state) continue;
        if (it->set == set) return true;
        if (it->what == Told::What::saved) return false;
    }
    return false;
}

/// Age of the oldest state that neither file nor copy holds nor a later one of theirs.
double lost_s(const KilledSession& session, const std::vector<std::size_t>& kept) {
    double lost_since_s = session.killed_s;
    for (auto it = session.told.rbegin(); it != session.told.rend(); ++it) {
        if (it->what != Told::What::state) continue;
        if (std::find(kept.begin(), kept.end(), it->set) != kept.end())
            return session.killed_s - lost_since_s;
        lost_since_s = it->at_s;
    }
    return 1e9;
}

int files_with(const fs::path& folder, const std::string& part) {
    int count = 0;
    std::error_code error;
    for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error))
        count += it->path().filename().string().find(part) != std::string::npos ? 1 : 0;
    return count;
}

/// The next session: what was left behind comes back, is saved, and nothing is left of it.
void start_again(const fs::path& file, const fs::path& copies,
                 const std::vector<LeftBehind>& found) {
    App app;
    if (found.empty()) {
        REQUIRE(open_set(app, file));
        REQUIRE_FALSE(save_set(app.history.set(), file));
    } else {
        REQUIRE(found.size() == 1);
        CHECK(found[0].file == file);
        CHECK(seconds_now() - found[0].written_s < 60);
        app.left_behind = found;
        Outbox out;
        out.wish(Act::bring_back, found[0].copy.string());
        carry_out(app, out);
        CHECK(app.history.dirty());
        CHECK(app.file == file);
        CHECK(fs::exists(found[0].copy));
        out.wish(Act::save_as, file.string());
        carry_out(app, out);
        CHECK_FALSE(app.history.dirty());
        CHECK_FALSE(fs::exists(found[0].copy));
    }
    CHECK(files_with(file.parent_path(), ".saving-") == 0);
    CHECK(files_with(copies, "session-") == 0);
    CHECK(left_behind(copies).empty());
}

void kill_once(const fs::path& folder, std::uint64_t seed, double after_s, Tally& tally) {
    INFO("seed " << seed << ", killed after " << after_s << " s");
    const fs::path file = folder / "set.json", copies = folder / "state/keystead/unsaved";
    const KilledSession session = run_and_kill(folder, seed, after_s);
    REQUIRE(WIFSIGNALED(session.status)); // it did not end by itself
    REQUIRE(WTERMSIG(session.status) == SIGKILL);
    REQUIRE(session.told.size() >= 2);
    ++tally.kills;
    tally.in_saving += session.told.back().what == Told::What::saving ? 1 : 0;
    tally.strays += files_with(folder, ".saving-") + files_with(copies, ".saving-");

    const auto saved = load_set(file);
    INFO((saved ? std::string() : saved.problem().message()));
    REQUIRE(saved);
    CHECK(was_saved(session.told, hash_of_set(saved.value().set)));
    std::vector<std::size_t> kept{hash_of_set(saved.value().set)};
    for (fs::directory_iterator it(copies), end; it != end; ++it)
        if (it->path().extension() == ".unsaved") {
            const auto copy = read_unsaved(it->path());
            INFO((copy ? std::string() : copy.problem().message()));
            REQUIRE(copy);
            CHECK(copy.value().file == file);
            kept.push_back(hash_of_set(copy.value().set));
            ++tally.copies;
        }
    const double lost = lost_s(session, kept);
    CHECK(lost < most_lost_s);
    tally.worst_lost_s = std::max(tally.worst_lost_s, lost);
    tally.sum_lost_s += lost;
    start_again(file, copies, left_behind(copies));
}

Tally kill_many(int times, double longest_s) {
    const Folder folder;
    std::mt19937_64 random(20);
    Tally tally;
    for (int i = 0; i < times; ++i) {
        // Each begins with the example again: a set of random edits grows odder with every run.
        fs::remove_all(folder.path / "set.json");
        fs::create_directories(folder.path / "state/keystead/unsaved");
        REQUIRE_FALSE(save_set(example("lantern-maker"), folder.path / "set.json"));
        const double share = static_cast<double>(random() % 10000) * 1e-4;
        kill_once(folder.path, random(), 0.05 + share * longest_s, tally);
    }
    return tally;
}

} // namespace

TEST_CASE("A session killed at any moment loses at most two seconds and breaks no file",
          "[ui][kill]") {
    const Tally tally = kill_many(5, 0.8);
    CHECK(tally.kills == 5);
    CHECK(tally.copies > 0);
}

TEST_CASE("Two hundred sessions killed at random moments", "[.long][ui][kill]") {
    const Tally tally = kill_many(200, 3.0);
    WARN(tally.kills << " killed, " << tally.copies << " left a copy behind, " << tally.in_saving
                     << " in the middle of saving, " << tally.strays
                     << " temporary files found and cleared; lost at worst " << tally.worst_lost_s
                     << " s, " << tally.sum_lost_s / tally.kills << " s on average");
    CHECK(tally.kills == 200);
}
