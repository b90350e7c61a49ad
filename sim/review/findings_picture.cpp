// Outline against background, gear in the picture, and room for the gear.
#include "sim/review/findings.h"
#include "sim/review/part_ways.h"
#include "sim/review/say.h"
#include "sim/review/tone.h"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace keystead {

namespace {

bool is_ear(const std::string& place) {
    return place.rfind("ear", 0) == 0;
}

void find_outline(const Bench& bench, const Review& review, bool hair, Findings& findings) {
    const SeparationReview* worst = nullptr;
    std::vector<std::string> places;
    const auto rank = [](const SeparationReview& s) {
        // An ear is lost with less harm than hair.
        return std::pair(is_ear(s.place), std::abs(s.difference_lstar));
    };
    for (const SeparationReview& s : review.separation) {
        if (of_head(s.place) != hair || s.verdict == "parts") continue;
        places.push_back(s.place);
        if (worst == nullptr || rank(s) < rank(*worst)) worst = &s;
    }
    if (worst == nullptr) return;
    const bool merges = worst->verdict == "merges";
    const char* background = background_word(bench.studio.set);
    std::string remedy;
    Mend mend;
    for (const PartWay& way : ways_to_part(bench, worst->place, places)) {
        remedy += (remedy.empty() ? "" : "; or ") + way.words;
        if (mend.edits.empty()) mend = way.mend;
    }
    if (remedy.empty()) remedy = "change what is worn or what hangs behind";
    remedy[0] = static_cast<char>(std::toupper(remedy[0]));
    std::string what = worst->inside_is;
    what[0] = static_cast<char>(std::toupper(what[0]));
    findings.push_back(
        {merges && hair && !is_ear(worst->place) ? Level::warning : Level::note,
         hair ? "hair-merges" : "shoulder-merges", "subject",
         what + (merges ? " merges with " : " hardly parts from ") + background + " at " +
             place_words(worst->place) + " (" + say::stops(worst->difference_stops) + ", ΔL* " +
             say::number(std::abs(worst->difference_lstar), 0) + "): " + worst->cause + ".",
         remedy + ".", std::move(mend)});
}

void find_in_frame(const Review& review, Findings& findings) {
    std::vector<std::string> told;
    for (const FrameReview& frame : review.frame) {
        if (std::find(told.begin(), told.end(), frame.id) != told.end()) continue;
        told.push_back(frame.id);
        double percent = 0.0;
        for (const FrameReview& other : review.frame)
            if (other.id == frame.id) percent += other.in_frame_percent;
        findings.push_back(
            {Level::warning, "in-frame", frame.id,
             "Its " + frame.part + (frame.part.ends_with('s') ? " show" : " shows") +
                 " in the picture (" +
                 (percent < 0.05 ? "a sliver" : say::number(percent, 1) + " % of the frame") + ").",
             "Move it out, or frame tighter."});
    }
}

} // namespace

bool of_head(const std::string& place) {
    return place.rfind("shoulder", 0) != 0 && place.rfind("arm", 0) != 0;
}

std::string place_words(const std::string& place) {
    if (place == "head_top") return "the top of the head";
    if (place == "hair_left") return "the subject's left side of the hair";
    if (place == "hair_right") return "the subject's right side of the hair";
    if (place == "ear_left") return "the subject's left ear";
    if (place == "ear_right") return "the subject's right ear";
    if (place == "arm_left") return "the subject's left arm";
    if (place == "arm_right") return "the subject's right arm";
    if (place == "shoulder_left") return "the subject's left shoulder";
    return "the subject's right shoulder";
}

const char* background_word(const Set& set) {
    if (set.background.kind == BackgroundKind::paper) return "the paper";
    return set.background.kind == BackgroundKind::cloth ? "the cloth" : "the wall";
}

void find_about_picture(const Bench& bench, const Review& review, Findings& findings) {
    find_outline(bench, review, true, findings);
    find_outline(bench, review, false, findings);
    find_in_frame(review, findings);
}

void find_about_room(const Review& review, Findings& findings) {
    constexpr double snug_m = 0.03;
    for (const RoomReview& room : review.room) {
        if (room.clearance_m >= snug_m) continue;
        const bool through = room.clearance_m < 0.0;
        const bool ceiling = room.nearest == "ceiling";
        const bool many = room.part.ends_with('s');
        const std::string where =
            through ? " would go " + say::with_unit(-room.clearance_m, 2, "m") + " through the "
                    : std::string(many ? " are" : " is") + " only " +
                          say::with_unit(100.0 * room.clearance_m, 0, "cm") + " from the ";
        const double move_m = 0.05 - room.clearance_m;
        findings.push_back({through ? Level::warning : Level::note,
                            through ? (ceiling ? "through-ceiling" : "through-wall")
                                    : (ceiling ? "near-ceiling" : "near-wall"),
                            room.id, "Its " + room.part + where + room.nearest + ".",
                            (ceiling ? "Lower it by " : "Move it in by ") +
                                say::with_unit(std::ceil(100.0 * move_m) / 100.0, 2, "m") + "."});
    }
}

} // namespace keystead
