#include "tests/engine/ui/killed_session.h"

#include "engine/ui/autosave.h"
#include "tests/engine/edit/random_commands.h"
#include "tests/engine/ui/window_bench.h"

#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <spawn.h>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace keystead::ui::testing {

double monotonic_s() {
    timespec time{};
    clock_gettime(CLOCK_MONOTONIC, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

std::size_t hash_of_text(const std::string& text) {
    return std::hash<std::string>()(text);
}

namespace {

/// The person at the window: drags stands and whatever else the pointer meets, edits at random,
/// undoes, saves.
class Person {
public:
    Person(WindowBench& bench, std::uint64_t seed)
        : bench_(bench)
        , commands_(seed) {}

    /// True where the set is to be saved now.
    bool act(Outbox& out) {
        keystead::testing::Dice& dice = commands_.dice();
        const double die = dice.unit();
        if (pressed_) {
            point();
            if (die < 0.04) bench_.table.button(pressed_ = false);
            if (die > 0.98) out.cancel();
            return false;
        }
        if (bench_.app.dragging()) { // by commands, as a panel's slider does
            if (die < 0.05)
                out.drop();
            else
                out.drag(commands_.next(bench_.app.history.set()));
            return false;
        }
        point();
        if (die < 0.05) bench_.table.button(pressed_ = true);
        if (die > 0.05 && die < 0.15) out.perform(commands_.next(bench_.app.history.set()));
        if (die > 0.15 && die < 0.17) out.drag(commands_.next(bench_.app.history.set()));
        if (die > 0.17 && die < 0.20) out.wish(dice.chance(0.6) ? Act::undo : Act::redo);
        return die > 0.97;
    }

private:
    /// Half of the time where a light stands, else anywhere in plan or elevation.
    void point() {
        keystead::testing::Dice& dice = commands_.dice();
        const Layout layout = bench_.layout();
        const std::vector<Light>& lights = bench_.app.history.set().lights;
        if (!pressed_ && !lights.empty() && dice.chance(0.5)) {
            const Vec2 base = dice.of(lights).support.base.position_m;
            const ImVec2 at = bench_.plan().at(base);
            return bench_.table.point(at.x, at.y);
        }
        const Rect& view = dice.chance(0.5) ? layout.plan : layout.elevation;
        bench_.table.point(view.x + view.w * static_cast<float>(dice.unit()),
                           view.y + view.h * static_cast<float>(dice.unit()));
    }

    WindowBench& bench_;
    keystead::testing::RandomCommands commands_;
    bool pressed_ = false;
};

class Teller {
public:
    explicit Teller(int pipe)
        : pipe_(pipe) {}
    void tell(char what, const App& app) const {
        std::array<char, 80> line{};
        const int size = std::snprintf(line.data(), line.size(), "%c %.9f %zu\n", what,
                                       monotonic_s(), hash_of_text(write_set(app.history.set())));
        // Whole or not at all: a line is shorter than PIPE_BUF.
        if (::write(pipe_, line.data(), static_cast<std::size_t>(size)) != size) std::abort();
    }

private:
    int pipe_;
};

void sit_at_window(int pipe, const std::filesystem::path& file, std::uint64_t seed) {
    WindowBench bench("lantern-maker");
    REQUIRE(open_set(bench.app, file));
    Autosave autosave(unsaved_folder());
    Person person(bench, seed);
    const Teller teller(pipe);
    teller.tell('e', bench.app);
    teller.tell('s', bench.app);
    std::uint64_t revision = bench.app.revision();
    while (true) { // until killed
        const double next_s = monotonic_s() + 1.0 / 60.0;
        Outbox out;
        const bool save = person.act(out);
        if (save) teller.tell('b', bench.app), out.wish(Act::save);
        carry_out(bench.app, out);
        if (save && !bench.app.history.dirty()) teller.tell('e', bench.app);
        bench.frames(1);
        if (bench.app.revision() != revision) teller.tell('s', bench.app);
        revision = bench.app.revision();
        autosave.keep(bench.app);
        const double left_s = next_s - monotonic_s();
        if (left_s > 0.0) ::usleep(static_cast<unsigned>(1e6 * left_s));
    }
}

std::vector<Told> read_told(const std::string& text) {
    std::vector<Told> told;
    std::istringstream lines(text);
    char what = 0;
    for (Told each; lines >> what >> each.at_s >> each.set; told.push_back(each))
        each.what = what == 's'   ? Told::What::state
                    : what == 'b' ? Told::What::saving
                                  : Told::What::saved;
    return told;
}

} // namespace

KilledSession run_and_kill(const std::filesystem::path& folder, std::uint64_t seed,
                           double after_s) {
    std::array<int, 2> pipe{};
    REQUIRE(::pipe(pipe.data()) == 0);
    std::vector<std::string> surroundings{"KEYSTEAD_SESSION=" + std::to_string(pipe[1]) + " " +
                                              std::to_string(seed) + " " +
                                              (folder / "set.json").string(),
                                          "XDG_STATE_HOME=" + (folder / "state").string()};
    for (char** each = environ; *each != nullptr; ++each)
        if (std::string(*each).rfind("XDG_STATE_HOME=", 0) != 0) surroundings.emplace_back(*each);
    std::vector<char*> environment;
    for (std::string& each : surroundings) environment.push_back(each.data());
    environment.push_back(nullptr);
    std::array<std::string, 2> words{"session", "[.session]"};
    std::array<char*, 3> arguments{words[0].data(), words[1].data(), nullptr};
    posix_spawn_file_actions_t actions{};
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addclose(&actions, pipe[0]);
    posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", 1, 0);
    pid_t child = 0;
    REQUIRE(::posix_spawn(&child, "/proc/self/exe", &actions, nullptr, arguments.data(),
                          environment.data()) == 0);
    posix_spawn_file_actions_destroy(&actions);
    ::close(pipe[1]);
    std::string text(1, '\0');
    const bool began = ::read(pipe[0], text.data(), 1) == 1; // the first word, or its end
    KilledSession session;
    if (began) ::usleep(static_cast<unsigned>(1e6 * after_s));
    session.killed_s = monotonic_s();
    ::kill(child, SIGKILL);
    ::waitpid(child, &session.status, 0);
    std::array<char, 4096> piece{};
    for (ssize_t got = 0; began && (got = ::read(pipe[0], piece.data(), piece.size())) > 0;)
        text.append(piece.data(), static_cast<std::size_t>(got));
    ::close(pipe[0]);
    session.told = read_told(text);
    return session;
}

} // namespace keystead::ui::testing

TEST_CASE("A session that others kill", "[.session]") {
    const char* asked = std::getenv("KEYSTEAD_SESSION");
    if (asked == nullptr) return;
    std::istringstream words(asked);
    int pipe = 0;
    std::uint64_t seed = 0;
    std::string file;
    words >> pipe >> seed >> std::ws;
    std::getline(words, file);
    keystead::ui::testing::sit_at_window(pipe, file, seed);
}
