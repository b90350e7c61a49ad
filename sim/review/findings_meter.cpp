// What the meter and the shutter bring to light: leaks, dark bands, cut tails, lost points, and
// real readings that disagree.
#include "sim/light/colour.h"
#include "sim/light/exposure.h"
#include "sim/light/flash_tail.h"
#include "sim/light/stops.h"
#include "sim/review/findings.h"
#include "sim/review/say.h"
#include "sim/review/ways_out.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

// Judgements of ours: a sixteenth of the flash is a tenth of a stop, which shows in a colour cast
// before it shows in brightness; a quarter is a third of a stop.
constexpr double leak_note_stops = -4.0;
constexpr double leak_warning_stops = -2.0;
constexpr double leak_wanted_stops = -5.0;
constexpr double tail_note_stops = 0.25;
constexpr double tail_wanted_stops = 0.1;
constexpr double correction_note_stops = 0.34; // a third of a stop
constexpr double spread_note_stops = 0.5;

std::string added_words(const Leak& leak) {
    return say::stops(-leak.stops_from_flash) +
           (leak.stops_from_flash < 0.0 ? " below" : " above") + " the flash on the face at ";
}

/// How to bring a leak `stops` down: as much by the shutter as its sync speed lets, the rest by
/// more flash against a smaller aperture.
std::string less_leak(const Camera& camera, double stops) {
    const double fastest_s = std::max(camera.sync_s, camera.shutter_s * std::exp2(-stops));
    const double by_shutter = std::log2(camera.shutter_s / fastest_s);
    std::string text;
    double left = stops;
    if (by_shutter >= 0.3) {
        const double shutter_s = shutter_mark_at_least_s(fastest_s * 0.99);
        left -= std::log2(camera.shutter_s / shutter_s);
        text = "Set " + shutter_words(shutter_s);
        if (left < 0.3) return text;
        text += "; that leaves " + say::stops(left) + ": ";
    } else {
        text = "The shutter is as short as its sync speed lets: ";
    }
    return text + "close to f/" +
           nominal_f_number(f_number_plus_stops(exact_f_number(camera.f_number), left)) +
           " and give every flash " + say::more_or_less(left) + ", ";
}

std::string sentence(std::string remedy, const std::string& other) {
    if (remedy.ends_with(", ")) return remedy + "or " + other + ".";
    return remedy + ", or " + other + ".";
}

void find_leak(const Bench& bench, const Leak& leak, bool room, const ShutterReading& shutter,
               Findings& findings) {
    if (leak.stops_from_flash < leak_note_stops) return;
    const Camera& camera = bench.studio.set.camera;
    std::string message = std::string(room ? "Room light is " : "Modelling lamps are ") +
                          added_words(leak) + shutter_words(camera.shutter_s) + ": " +
                          say::number(leak.stops_added, 2) + " stop more";
    if (shutter.flash_k && shutter.mixed_k) {
        const double shift = mired_shift_between(*shutter.flash_k, *shutter.mixed_k);
        constexpr double seen_mired = 5.0; // about what the eye tells beside a neutral
        if (std::abs(shift) >= seen_mired)
            message += shift > 0.0 ? " and a warm cast" : " and a cool cast";
        if (std::abs(shift) >= seen_mired)
            message += " (" + say::signed_number(shift, 0) + " mired, all light together)";
    }
    findings.push_back({leak.stops_from_flash >= leak_warning_stops ? Level::warning : Level::note,
                        room ? "ambient-leak" : "modelling-leak", room ? "room" : "camera",
                        message + ".",
                        sentence(less_leak(camera, leak.stops_from_flash - leak_wanted_stops),
                                 room ? "darken the room" : "dim the modelling lamps")});
}

void find_sync(const Bench& bench, const ShutterReading& shutter, Findings& findings) {
    const Camera& camera = bench.studio.set.camera;
    if (!shutter.flash || !shutter.beyond_sync) return;
    const std::string remedy =
        "Set " + shutter_words(shutter_mark_at_least_s(camera.sync_s)) + " or longer.";
    const std::string beyond = shutter_words(camera.shutter_s) +
                               " is shorter than the sync speed " + shutter_words(camera.sync_s);
    if (shutter.dark_share > 0.0)
        findings.push_back({Level::warning, "sync-band", "camera",
                            beyond + ": the second curtain covers " +
                                say::number(100.0 * shutter.dark_share, 0) +
                                " % of the frame's short side from " + shutter.dark_edge +
                                " when the flash fires; a radio's delay makes it more.",
                            remedy});
    else
        findings.push_back({Level::note, "sync-limit", "camera",
                            beyond + ". By the curtain's travel alone the frame is open; a "
                                     "trigger's delay can darken an edge.",
                            remedy});
}

void find_tails(const Bench& bench, const ShutterReading& shutter, Findings& findings) {
    const Set& set = bench.studio.set;
    for (const TailLoss& tail : shutter.tails) {
        if (tail.worst_stops < tail_note_stops || !shutter.flash) continue;
        const auto light = std::find_if(set.lights.begin(), set.lights.end(),
                                        [&](const Light& l) { return l.id == tail.light; });
        const double t05_s = light->head.flash_t05_s;
        const double wanted_s = std::max(
            set.camera.sync_s, shutter_for_tail_loss_s(set.camera, t05_s, tail_wanted_stops));
        findings.push_back(
            {Level::note, "flash-tail-cut", tail.light,
             "The curtain cuts off the end of its flash (t0.5 " + say::number(1000.0 * t05_s, 1) +
                 " ms): " + say::stops(tail.worst_stops) + " less at one edge of the picture, " +
                 say::number(tail.best_stops, 1) + " at the other. A meter reads all of it.",
             "Set " + shutter_words(shutter_mark_at_least_s(wanted_s)) +
                 " or longer, or use a head with a shorter flash."});
    }
}

void find_lost_points(const Review& review, Findings& findings) {
    for (const PointReading& point : review.meter)
        if (!point.facing)
            findings.push_back(
                {Level::warning, "meter-point-lost", point.point.id,
                 "Is to face " + point.point.toward + ", which the set does not have: no reading.",
                 "Turn it toward a light, the camera or an angle."});
}

void find_disagreement(const Review& review, Findings& findings) {
    for (const MeasuredRow& row : review.measured.rows)
        if (!row.problem.empty())
            findings.push_back({Level::warning, "measured-unused", row.measured.light,
                                "Its measured " + meter_notation(row.measured.f_number) + " at " +
                                    row.measured.at + " can't be compared: " + row.problem + ".",
                                "Mend the list of measured readings."});
    for (const LightCorrection& c : review.measured.corrections) {
        if (c.spread_stops >= spread_note_stops)
            findings.push_back({Level::warning, "measured-uneven", c.light,
                                "Its measured readings lie unevenly off the predicted ones, " +
                                    say::stops(c.spread_stops) +
                                    " apart: that is not a matter of output.",
                                "Check its distance, its aim and what stands in its way."});
        else if (std::abs(c.stops) >= correction_note_stops)
            findings.push_back({Level::note, "measured-differs", c.light,
                                "Measured " + say::more_or_less(c.stops) + " than predicted.",
                                "Enter the reading as the head's calibration, or set its power by "
                                "the meter."});
    }
}

} // namespace

void find_about_meter(const Bench& bench, const Review& review, Findings& findings) {
    const ShutterReading& shutter = review.shutter;
    if (shutter.room_light) find_leak(bench, *shutter.room_light, true, shutter, findings);
    if (shutter.modelling) find_leak(bench, *shutter.modelling, false, shutter, findings);
    find_sync(bench, shutter, findings);
    find_tails(bench, shutter, findings);
    find_lost_points(review, findings);
    find_disagreement(review, findings);
}

} // namespace keystead
