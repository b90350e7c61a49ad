// How long each frame of the window took, and how far its picture lagged behind the hand: one JSON
// line a frame. For measuring; without a file it does nothing.
#pragma once

#include <cstdint>
#include <deque>
#include <fstream>
#include <string>
#include <vector>

namespace keystead::ui {

class FrameLog {
public:
    /// An empty name: nothing is logged.
    explicit FrameLog(const std::string& file);
    bool wanted() const { return wanted_; }
    bool writes() const { return out_.good(); }

    enum class Part { results, picture, build, draw, swap };

    /// Events were just taken in. `waited`: the window slept until they came; else they came at
    /// some time since they were last taken in, and the longest is counted.
    void begin(bool waited);
    /// What was done since `begin` or the last part belongs to this one.
    void done(Part part);
    /// An event of this frame made the set another one.
    void changed(std::uint64_t revision);
    /// The picture is of that revision, or newer than all before it.
    void pictured(std::uint64_t revision) { pictured_ = revision; }
    /// After the swap, or after it was found that none is needed.
    void end(bool dragging);

private:
    struct Change {
        std::uint64_t revision;
        double event_s;
    };

    std::ofstream out_;
    bool wanted_ = false;
    double start_s_ = 0.0, part_s_ = 0.0, event_s_ = 0.0;
    double ms_[5] = {};
    std::deque<Change> waiting_; ///< changes that no picture has shown yet
    std::uint64_t pictured_ = 0;
};

} // namespace keystead::ui
