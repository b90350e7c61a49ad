#include "engine/ui/unsaved_copy.h"

#include "sim/base/safe_file.h"
#include "sim/set/set_json.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iterator>
#include <sstream>
#include <unistd.h>

namespace keystead::ui {

namespace fs = std::filesystem;

namespace {

constexpr const char* format_word = "keystead-unsaved";

std::string read_all(const fs::path& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

/// When a process began, in the system's ticks since it started; empty for one that does not run.
/// proc(5): the 22nd word of its line, the second being a name in brackets that may hold anything.
std::string beginning_of(const std::string& process) {
    const std::string line = read_all("/proc/" + process + "/stat");
    const std::size_t name_end = line.rfind(')');
    if (name_end == std::string::npos) return {};
    std::istringstream words(line.substr(name_end + 1));
    std::string word;
    for (int i = 3; i <= 22; ++i)
        if (!(words >> word)) return {};
    return word;
}

/// `session-PROCESS-BEGINNING.unsaved` of a session that still runs.
bool still_runs(const std::string& stem) {
    const std::size_t first = stem.find('-'), second = stem.rfind('-');
    if (second <= first) return false;
    const std::string process = stem.substr(first + 1, second - first - 1);
    const bool number = process.find_first_not_of("0123456789") == std::string::npos;
    return number && !process.empty() && beginning_of(process) == stem.substr(second + 1);
}

bool is_copy(const fs::path& file) {
    return file.extension() == ".unsaved" && file.filename().string().rfind("session-", 0) == 0;
}

bool says_the_same(const UnsavedCopy& copy, const fs::path& file) {
    const auto saved = file.empty() ? Result<LoadedSet>(Problem{}) : load_set(file);
    return saved && write_set(saved.value().set) == write_set(copy.set);
}

} // namespace

std::string unsaved_text(const UnsavedCopy& copy) {
    const Json head{
        {"format", format_word}, {"file", copy.file.string()}, {"written_s", copy.written_s}};
    return json_line(head) + "\n" + write_set(copy.set);
}

Result<UnsavedCopy> read_unsaved(const fs::path& file) {
    const std::string text = read_all(file);
    const std::size_t line = std::min(text.find('\n'), text.size());
    const Result<Json> head = parse_json(std::string_view(text).substr(0, line));
    const Problem unreadable{file.string(), "", "is not a copy of unsaved changes"};
    if (!head || !head.value().is_object()) return unreadable;
    const Json &format = head.value().value("format", Json()),
               &path = head.value().value("file", Json()),
               &written = head.value().value("written_s", Json());
    if (format != format_word || !path.is_string() || !written.is_number_integer())
        return unreadable;
    Result<LoadedSet> loaded =
        parse_set(std::string_view(text).substr(std::min(line + 1, text.size())));
    if (loaded)
        return UnsavedCopy{path.get<std::string>(), written.get<std::int64_t>(),
                           std::move(loaded).value().set};
    Problem problem = loaded.problem();
    problem.path = file.string() + (problem.path.empty() ? "" : ": " + problem.path);
    return problem;
}

fs::path unsaved_folder() {
    if (const char* state = std::getenv("XDG_STATE_HOME"); state != nullptr && *state != 0)
        return fs::path(state) / "keystead" / "unsaved";
    if (const char* home = std::getenv("HOME"); home != nullptr && *home != 0)
        return fs::path(home) / ".local" / "state" / "keystead" / "unsaved";
    return {};
}

fs::path own_copy(const fs::path& folder) {
    const std::string process = std::to_string(::getpid());
    return folder / ("session-" + process + "-" + beginning_of(process) + ".unsaved");
}

std::vector<LeftBehind> left_behind(const fs::path& folder) {
    remove_strays(folder, "session-");
    std::vector<std::pair<fs::path, UnsavedCopy>> copies;
    std::error_code error;
    for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
        if (!is_copy(it->path()) || still_runs(it->path().stem().string())) continue;
        // What cannot be read is left where it is: a newer Keystead may have written it.
        if (Result<UnsavedCopy> copy = read_unsaved(it->path()))
            copies.emplace_back(it->path(), std::move(copy).value());
    }
    std::sort(copies.begin(), copies.end(), [](const auto& a, const auto& b) {
        return std::pair(b.second.written_s, b.first) < std::pair(a.second.written_s, a.first);
    });
    std::vector<LeftBehind> found;
    std::vector<std::string> told;
    for (const auto& [path, copy] : copies) {
        const std::string says = copy.file.string() + "\n" + write_set(copy.set);
        if (says_the_same(copy, copy.file) ||
            std::find(told.begin(), told.end(), says) != told.end()) {
            fs::remove(path, error);
            continue;
        }
        told.push_back(says);
        found.push_back({path, copy.file, copy.set.name, copy.written_s});
    }
    return found;
}

std::int64_t seconds_now() {
    return std::chrono::duration_cast<std::chrono::seconds>(
               std::chrono::system_clock::now().time_since_epoch())
        .count();
}

std::string when_words(std::int64_t written_s, std::int64_t now_s) {
    static constexpr std::array<const char*, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                        "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const std::time_t written = written_s, now = now_s;
    std::tm then{}, today{};
    if (::localtime_r(&written, &then) == nullptr || ::localtime_r(&now, &today) == nullptr)
        return "some time ago";
    std::array<char, 8> clock{};
    std::strftime(clock.data(), clock.size(), "%H:%M", &then);
    if (then.tm_year == today.tm_year && then.tm_yday == today.tm_yday) return clock.data();
    return std::to_string(then.tm_mday) + " " + months[static_cast<std::size_t>(then.tm_mon)] +
           " " + clock.data();
}

} // namespace keystead::ui
