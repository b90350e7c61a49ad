// Changes that are not saved yet, kept beside the program's settings so that a crash, a kill or a
// power cut loses about half a second of work. A thread of its own writes: no frame waits for a
// disk.
#pragma once

#include "engine/ui/app.h"

#include <chrono>
#include <condition_variable>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

namespace keystead::ui {

class Autosave {
public:
    /// Writes at once, then at most every `every`. An empty folder: nothing is kept.
    explicit Autosave(const std::filesystem::path& folder,
                      std::chrono::milliseconds every = std::chrono::milliseconds(500));
    /// Leaves the copy as it is: what was not finished may be wanted.
    ~Autosave();
    Autosave(const Autosave&) = delete;
    Autosave& operator=(const Autosave&) = delete;

    /// After each frame: the set as it is now, in the middle of a drag too, or that all is saved,
    /// whereupon the copy goes away.
    void keep(const App& app);
    /// The session ended as a person wanted it to: nothing is left behind. Waits for the disk.
    void finish();
    /// Something is still to be written or taken away.
    bool busy() const;

private:
    struct Job {
        std::shared_ptr<const Set> set; ///< null: all is saved
        std::filesystem::path file;     ///< the set's own
    };

    void run();
    void stop();
    bool carry_out(const Job& job) const;

    std::filesystem::path copy_;
    std::chrono::milliseconds every_;
    Job handed_; ///< what the window last said; its own thread's alone

    mutable std::mutex mutex_;
    std::condition_variable changed_;
    std::optional<Job> waiting_;
    bool working_ = false, closing_ = false;
    std::thread thread_; ///< last: it runs from here on
};

} // namespace keystead::ui
