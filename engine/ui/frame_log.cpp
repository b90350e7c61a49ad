#include "engine/ui/frame_log.h"

#include <algorithm>
#include <chrono>
#include <iterator>
#include <nlohmann/json.hpp>

namespace keystead::ui {

namespace {

constexpr const char* part_names[] = {"results_ms", "picture_ms", "build_ms", "draw_ms", "swap_ms"};

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

double hundredths(double ms) {
    return static_cast<double>(static_cast<long>(100.0 * ms + 0.5)) / 100.0;
}

} // namespace

FrameLog::FrameLog(const std::string& file)
    : wanted_(!file.empty()) {
    if (wanted_) out_.open(file);
}

void FrameLog::begin(bool waited) {
    const double now = now_s();
    event_s_ = waited || start_s_ == 0.0 ? now : start_s_;
    start_s_ = part_s_ = now;
    std::fill(std::begin(ms_), std::end(ms_), 0.0);
}

void FrameLog::done(Part part) {
    const double now = now_s();
    ms_[static_cast<int>(part)] += 1e3 * (now - part_s_);
    part_s_ = now;
}

void FrameLog::changed(std::uint64_t revision) {
    if (wanted_) waiting_.push_back({revision, event_s_});
}

void FrameLog::end(bool dragging) {
    if (!wanted_) return;
    const double now = now_s();
    nlohmann::ordered_json line;
    line["start_s"] = start_s_;
    line["frame_ms"] = hundredths(1e3 * (now - start_s_));
    for (std::size_t i = 0; i < std::size(part_names); ++i)
        line[part_names[i]] = hundredths(ms_[i]);
    line["dragging"] = dragging;
    line["latency_ms"] = nlohmann::ordered_json::array();
    for (; !waiting_.empty() && waiting_.front().revision <= pictured_; waiting_.pop_front())
        line["latency_ms"].push_back(hundredths(1e3 * (now - waiting_.front().event_s)));
    out_ << line.dump() << '\n' << std::flush;
}

} // namespace keystead::ui
