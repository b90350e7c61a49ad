// The program in a window of the tests' screen, with a home of its own.
#pragma once

#include "sim/set/set.h"
#include "tests/window/child.h"
#include "tests/window/hand.h"
#include "tests/window/screen.h"

#include <filesystem>
#include <functional>
#include <string>

namespace keystead::journeys {

class Session {
public:
    /// An empty home and a folder for sets below the build folder; settings as after the hints.
    explicit Session(const std::string& name, const Screen& on = the_screen());
    /// A test that broke off leaves a screenshot too, out/journeys/failed-NAME.png.
    ~Session();

    /// `keystead open` with these words, in the sets' folder. Waits until its window shows a set.
    void start(const std::vector<std::string>& words);
    /// Presses Ctrl+Q and gives the exit status.
    int quit();
    /// kill -9, as soon as that holds.
    void kill_after(const std::function<bool()>& holds);

    /// Presses Ctrl+S until the file holds what is wanted; the file's text.
    std::string saved(const std::filesystem::path& file, const std::string& what,
                      const std::function<bool(const std::string&)>& wanted);
    void wait_for_title(const std::string& name) const;

    /// One screenshot of the journey, out/journeys/NAME.png, once the picture has had `settle_s` or
    /// nothing changes any more.
    void photograph(const std::string& name, double settle_s = 0.8) const;

    std::filesystem::path sets() const { return folder_ / "sets"; }
    std::filesystem::path settings_file() const;
    std::filesystem::path unsaved_folder() const;

    const Screen& screen;
    Hand hand;

private:
    std::string name_;
    std::filesystem::path folder_;
    Child program_;
};

/// A set whose key hangs on an arm that stands while short and tips when run out.
Set rehearsal();

std::string text_of(const std::filesystem::path& file);
/// The set in that file.
Set set_in(const std::filesystem::path& file);

} // namespace keystead::journeys
