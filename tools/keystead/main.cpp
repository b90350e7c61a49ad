// keystead: plan portrait sets with several lights. Command line only; the work is elsewhere.
#include "tools/keystead/commands.h"
#include "tools/keystead/exit_codes.h"

#include <algorithm>
#include <array>
#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace {

using namespace keystead;

constexpr std::array command_names{"open",  "review", "meter",   "falloff",     "still", "plate",
                                   "chart", "agree",  "compare", "photometric", "import"};

/// `keystead SET` is short for `keystead open SET`.
std::vector<std::string> with_command(int count, char** words) {
    std::vector<std::string> arguments(words + 1, words + count);
    const auto is_command = [](const std::string& word) {
        return std::find(command_names.begin(), command_names.end(), word) != command_names.end();
    };
    if (!arguments.empty() && !arguments.front().empty() && arguments.front().front() != '-' &&
        !is_command(arguments.front()))
        arguments.insert(arguments.begin(), "open");
    // CLI11 takes the words last first.
    std::reverse(arguments.begin(), arguments.end());
    return arguments;
}

void describe_filler(CLI::App& app, std::string& filler) {
    app.add_option("--filler", filler,
                   "what computes the picture: opengl, processor, or automatic (what suits this "
                   "machine)")
        ->check(CLI::IsMember({"automatic", "opengl", "processor"}));
}

void describe_open(CLI::App& app, OpenArguments& open) {
    app.add_option("SET", open.set, "set file (*.json)");
    app.add_option("--theme", open.theme, "dark or light")->check(CLI::IsMember({"dark", "light"}));
    app.add_option("--scale", open.scale, "size of text and controls, 0.75 to 4")
        ->check(CLI::Range(0.75, 4.0));
    app.add_option("--frame-log", open.frame_log,
                   "write how long each frame took to FILE, one JSON line each");
    app.add_option("--screenshot", open.screenshot,
                   "write the window as a PNG and leave (needs no display)");
    app.add_option("--size", open.size, "window size, WIDTHxHEIGHT");
    app.add_option("--arrangement", open.view, "upright, landscape, row or room")
        ->check(CLI::IsMember({"upright", "landscape", "row", "room"}));
    app.add_flag("--learn", open.learn, "name the shadows, chart the patterns");
    app.add_option("--select", open.select,
                   "with --screenshot: a light's or panel's id, subject, camera or room");
    describe_filler(app, open.filler);
}

void describe_review(CLI::App& app, ReviewArguments& review) {
    app.add_option("SET", review.set, "set file (*.json)")->required();
    app.add_flag("--json", review.json, "one JSON object instead of sentences");
    app.add_flag("--quick", review.quick, "leave out how far the head may turn");
}

void describe_meter(CLI::App& app, MeterArguments& meter) {
    app.add_option("SET", meter.set, "set file (*.json)")->required();
    app.add_option("--at", meter.at, "only this meter point: its id, or face");
    app.add_flag("--json", meter.json, "one JSON object instead of sentences");
    CLI::Option* measured = app.add_option(
        "--measured", meter.measured,
        "list of real readings, one a line, such as: key f/8 + 3/10 at chin (-: from stdin)");
    CLI::Option* into =
        app.add_option("--into", meter.into, "set file to write with those readings")
            ->needs(measured);
    app.add_flag("--calibrate", meter.calibrate,
                 "with --into: also calibrate each light that was read by its correction")
        ->needs(into);
}

void describe_falloff(CLI::App& app, FalloffArguments& falloff) {
    constexpr double nearest_m = 0.05, farthest_m = 100.0;
    app.add_option("SET", falloff.set, "set file (*.json)")->required();
    app.add_option("--light", falloff.light, "the light's id")->required();
    app.add_option("--from", falloff.from_m, "nearest distance, m")
        ->check(CLI::Range(nearest_m, farthest_m));
    app.add_option("--to", falloff.to_m, "farthest distance, m")
        ->check(CLI::Range(nearest_m, farthest_m));
    CLI::Option* read = app.add_option("--read", falloff.read,
                                       "a meter's reading to calibrate the head by, e.g. \"f/8\"");
    app.add_option("--at", falloff.at_m, "how far from the face it was read, m (1.5)")
        ->check(CLI::Range(nearest_m, farthest_m))
        ->needs(read);
    app.add_flag("--json", falloff.json, "one JSON object instead of a table");
}

void describe_still(CLI::App& app, StillArguments& still) {
    app.add_option("SET", still.set, "set file (*.json)")->required();
    app.add_option("--out", still.out, "picture to write: *.png, or *.exr for the linear light")
        ->required();
    app.add_option("--size", still.size, "WIDTHxHEIGHT in pixels");
    app.add_option("--samples", still.samples, "samples of every light, 1 to 65536")
        ->check(CLI::Range(1, 65536));
    app.add_option("--view", still.view, "lens: through the camera; outside: the set from outside")
        ->check(CLI::IsMember({"lens", "outside"}));
    app.add_flag("--direct", still.direct_only, "direct light only, no bounce");
    app.add_option("--shown", still.shown,
                   "picture; stops: a map of stops from the face, with its key")
        ->check(CLI::IsMember({"picture", "stops"}));
    app.add_flag("--clipping", still.clipping,
                 "stripes where the sensor is full, dots where it is as good as black");
    app.add_option(
           "--look", still.looks,
           "what is look and not light, off unless named: skin (red past the shadow's edge), "
           "print (deeper shadows), glare (scattered in the lens)")
        ->delimiter(',')
        ->check(CLI::IsMember({"skin", "print", "glare"}));
    describe_filler(app, still.filler);
    app.add_option("--bits", still.bits, "of a PNG, 8 or 16")->check(CLI::IsMember({8, 16}));
    CLI::Option* reference = app.add_flag(
        "--reference", still.reference,
        "by the path tracer, which leaves out nothing but later bounces and takes no short cuts; "
        "samples are paths a pixel; an .exr also gets each pixel's standard error");
    app.add_option("--bounces", still.bounces,
                   "with --reference: surfaces between light and what is seen, 0 to 32 (3)")
        ->check(CLI::Range(0, 32))
        ->needs(reference);
    app.add_option("--seed", still.seed, "with --reference: another seed, other noise")
        ->needs(reference);
}

void describe_agree(CLI::App& app, AgreeArguments& agree) {
    app.add_option("SET", agree.sets, "set files (*.json)")->required();
    app.add_option("--out", agree.out, "folder for pictures and difference maps (here)");
    app.add_option("--size", agree.size, "WIDTHxHEIGHT in pixels (480x270)");
    app.add_option("--samples", agree.samples, "paths a pixel of the reference (128)")
        ->check(CLI::Range(2, 65536));
    app.add_option("--points", agree.points, "samples of every light of the quick picture (64)")
        ->check(CLI::Range(1, 65536));
    app.add_flag("--direct", agree.direct_only, "both without bounced light");
    app.add_flag("--matt", agree.matt, "both without highlights");
    app.add_flag("--matt-bounces", agree.matt_bounces,
                 "the reference's bounced light without highlights, as a bake has it");
    app.add_flag("--face", agree.face,
                 "instead: where map and picture of a face call the same places lit, by light");
    app.add_flag("--edges", agree.edges,
                 "instead: the review's separation along the outline against the path tracer");
}

void describe_compare(CLI::App& app, CompareArguments& compare) {
    app.add_option("FIRST", compare.first, "set file (*.json)")->required();
    app.add_option("SECOND", compare.second, "set file (*.json)")->required();
    app.add_option("--out", compare.out, "sheet to write (*.png): both pictures above the table");
    app.add_option("--height", compare.height_px, "of each picture, pixels (480)")
        ->check(CLI::Range(64, 4320));
    app.add_option("--samples", compare.samples, "samples of every light, 1 to 65536")
        ->check(CLI::Range(1, 65536));
}

void describe_plate(CLI::App& app, PlateArguments& plate) {
    app.add_option("--out", plate.out, "picture to write (*.png)")->required();
    app.add_option("--kind", plate.kind,
                   "heads: sitters from four sides; patterns: the five reference key directions; "
                   "ten-patterns: every name on a frontal, a turned and a bowed head; "
                   "modifiers: one face under twelve modifiers")
        ->check(CLI::IsMember({"heads", "patterns", "ten-patterns", "modifiers"}));
    app.add_flag("--hard", plate.hard, "heads under a small lamp instead of a soft box");
    app.add_option("--samples", plate.samples, "samples of every light, 1 to 65536")
        ->check(CLI::Range(1, 65536));
    app.add_option("--size", plate.size, "of one picture, WIDTHxHEIGHT");
}

void describe_chart(CLI::App& app, ChartArguments& chart) {
    app.add_option("SET", chart.set, "set file (*.json)")->required();
    app.add_option("--out", chart.out, "picture to write (*.png)")->required();
    app.add_option("--light", chart.light, "id of the light to carry round (default: the key)");
    app.add_option("--size", chart.size, "picture size, WIDTHxHEIGHT");
}

void describe_photometric(CLI::App& app, PhotometricArguments& photometric) {
    app.add_option("FILE", photometric.file, "IES LM-63 or EULUMDAT file")->required();
    app.add_option("--polar", photometric.polar, "polar diagram to write (*.svg)");
}

void describe_import(CLI::App& app, ImportArguments& import) {
    app.add_option("FILE", import.file, "glTF 2.0 (.glb, .gltf) or OBJ")->required();
    app.add_flag("--json", import.json, "one JSON object instead of sentences");
    CLI::Option* into = app.add_option("--into", import.into, "set file to put it into");
    app.add_option("--as", import.as, "subject or prop")
        ->check(CLI::IsMember({"subject", "prop"}))
        ->needs(into);
    app.add_option("--part", import.part, "what a subject's file shows: head, bust, figure")
        ->check(CLI::IsMember({"head", "bust", "figure"}))
        ->needs(into);
    app.add_option("--unit", import.unit, "of its numbers: mm, cm, m, in, ft")
        ->check(CLI::IsMember({"mm", "cm", "m", "in", "ft"}));
    app.add_option("--up", import.up, "its axis that points up: x, y, z")
        ->check(CLI::IsMember({"x", "y", "z"}));
}

} // namespace

int main(int count, char** words) {
    CLI::App app{"Plan portrait sets with several lights: what stands, what the light does, what "
                 "the meter reads."};
    app.name("keystead");
    app.set_version_flag("--version", KEYSTEAD_VERSION);
    app.footer("Exit status: 0 done; 1 done and a danger finding stands; 2 the input or usage is "
               "wrong;\n3 the machine lacks something.\nA planning aid: makers' ratings, local "
               "codes and licensed practice come first.");
    app.require_subcommand(1);

    OpenArguments open;
    ReviewArguments review;
    MeterArguments meter;
    FalloffArguments falloff;
    StillArguments still;
    CLI::App* open_app = app.add_subcommand("open", "show a set in the window");
    CLI::App* review_app = app.add_subcommand("review", "print every verdict on a set");
    CLI::App* meter_app = app.add_subcommand("meter", "say what a hand meter reads of each light");
    CLI::App* falloff_app =
        app.add_subcommand("falloff", "say what a light reads over distance, beside the rule");
    CLI::App* still_app = app.add_subcommand("still", "write a converged picture");
    PhotometricArguments photometric;
    CLI::App* photometric_app =
        app.add_subcommand("photometric", "say what a measured light distribution holds");
    ImportArguments import;
    CLI::App* import_app =
        app.add_subcommand("import", "say what a head, figure or prop file holds");
    describe_photometric(*photometric_app, photometric);
    describe_import(*import_app, import);
    PlateArguments plate;
    CLI::App* plate_app =
        app.add_subcommand("plate", "write a labelled sheet of sitters and lights to compare");
    describe_plate(*plate_app, plate);
    ChartArguments chart;
    CLI::App* chart_app =
        app.add_subcommand("chart", "write which pattern a light would make from every direction");
    describe_chart(*chart_app, chart);
    CompareArguments compare;
    CLI::App* compare_app =
        app.add_subcommand("compare", "show two sets side by side, and what differs");
    describe_compare(*compare_app, compare);
    AgreeArguments agree;
    CLI::App* agree_app =
        app.add_subcommand("agree", "hold the quick pictures of sets against the path tracer's");
    describe_agree(*agree_app, agree);
    describe_open(*open_app, open);
    describe_review(*review_app, review);
    describe_meter(*meter_app, meter);
    describe_falloff(*falloff_app, falloff);
    describe_still(*still_app, still);

    try {
        app.parse(with_command(count, words));
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? exit_code::done : exit_code::input;
    }
    if (*open_app) return open_command(open);
    if (*review_app) return review_command(review);
    if (*meter_app) return meter_command(meter);
    if (*falloff_app) return falloff_command(falloff);
    if (*plate_app) return plate_command(plate);
    if (*chart_app) return chart_command(chart);
    if (*agree_app) return agree_command(agree);
    if (*compare_app) return compare_command(compare);
    if (*photometric_app) return photometric_command(photometric);
    if (*import_app) return import_command(import);
    return still_command(still);
}
