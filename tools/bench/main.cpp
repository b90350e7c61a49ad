// keystead-bench: what the program costs on this machine, as one JSON object on stdout.
#include "engine/gl/context.h"
#include "engine/gl/load.h"
#include "sim/set/set_io.h"
#include "tools/bench/picture_bench.h"
#include "tools/bench/scene_obj.h"
#include "tools/bench/sim_bench.h"
#include "tools/bench/window_bench.h"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <sys/resource.h>
#include <thread>

namespace {

using namespace keystead;
using bench::Json;

struct Arguments {
    std::string set;
    std::string filler = "automatic";
    bool quick = false;
    bool pictures_only = false;
    std::vector<std::string> window; ///< sizes
    std::string obj;
};

std::string processor_name() {
    std::ifstream info("/proc/cpuinfo");
    for (std::string line; std::getline(info, line);)
        if (line.rfind("model name", 0) == 0) return line.substr(line.find(':') + 2);
    return "unknown";
}

double peak_mib() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

void say(const char* what) {
    std::fprintf(stderr, "keystead-bench: %s\n", what);
}

Json graphics_card(const bench::PictureBench& bench) {
    Json json;
    say("edits and convergence at 1920 x 1080");
    json["1920x1080"] = bench::edits(bench, 1920, 1080, 0.0, 0.0, 0.5);
    json["converge_1920x1080"] = bench::convergence(bench, 1920, 1080, 8.0, 0.0);
    say("edits at 3840 x 2160");
    json["3840x2160"] = bench::edits(bench, 3840, 2160, 0.0, 1000.0 / 60.0, 0.0);
    return json;
}

Json processor(const bench::PictureBench& bench, bool quick) {
    Json json;
    say("edits at 960 x 540");
    json["960x540"] = bench::edits(bench, 960, 540, 16.0, 50.0, 8.0);
    say("edits at 1280 x 720");
    json["1280x720"] = bench::edits(bench, 1280, 720, 30.0, 85.0, 8.0);
    say("first picture");
    json["start_to_first_picture"] = bench::first_picture(bench, 960, 540, 1000.0);
    // Before the many samples of the next, whose memory no window uses.
    json["memory_peak_mib"] = std::round(peak_mib());
    say("convergence");
    if (quick)
        json["converge_480x270"] = bench::convergence(bench, 480, 270, 0.0, 0.0);
    else
        json["converge_960x540"] = bench::convergence(bench, 960, 540, 700.0, 2100.0);
    return json;
}

int run(const Arguments& arguments) {
    const Result<LoadedSet> loaded = load_set(arguments.set);
    if (!loaded) {
        std::fprintf(stderr, "keystead-bench: %s\n", loaded.problem().message().c_str());
        return 2;
    }
    const std::optional<FillerKind> wanted = filler_kind(arguments.filler);
    if (!wanted || loaded.value().set.lights.empty()) {
        std::fprintf(stderr, "keystead-bench: no such filler, or a set without lights\n");
        return 2;
    }
    if (!arguments.obj.empty()) {
        const Outcome failed = bench::write_obj(*make_studio(loaded.value().set), arguments.obj);
        if (failed) std::fprintf(stderr, "keystead-bench: %s\n", failed->message().c_str());
        return failed ? 2 : 0;
    }
    std::shared_ptr<HeadlessContext> context;
    if (!arguments.window.empty() || *wanted != FillerKind::processor) {
        const auto created = HeadlessContext::create();
        if (created) context = created.value();
    }
    bench::PictureBench pictures{
        loaded.value().set,
        resolved(*wanted, context != nullptr, context != nullptr && gl_is_software()),
        arguments.quick ? 7 : 15};
    const Set& set = pictures.set;
    const bool gpu = pictures.filler == FillerKind::opengl;
    if (gpu && context == nullptr) {
        std::fprintf(stderr, "keystead-bench: there is no OpenGL here\n");
        return 3;
    }
    Json json;
    json["set"] = set.name;
    json["lights"] = set.lights.size();
    json["processor"] = processor_name();
    json["threads"] = std::thread::hardware_concurrency();
    json["filler"] = gpu ? gl_device() : "processor";
    if (!arguments.window.empty()) {
        if (context == nullptr) {
            std::fprintf(stderr, "keystead-bench: there is no OpenGL here\n");
            return 3;
        }
        json["drawn by"] = gl_device();
        for (const std::string& size : arguments.window) {
            int width = 0, height = 0;
            if (std::sscanf(size.c_str(), "%dx%d", &width, &height) != 2 || width < 800 ||
                height < 500) {
                std::fprintf(stderr, "keystead-bench: %s is no size of 800x500 or more\n",
                             size.c_str());
                return 2;
            }
            say(("dragging in the window at " + size).c_str());
            json["window"][size] = bench::window_drags(arguments.set, width, height, *wanted,
                                                       arguments.quick ? 1.5 : 3);
        }
        std::cout << json.dump(2) << '\n';
        return 0;
    }
    json["pictures"] = gpu ? graphics_card(pictures) : processor(pictures, arguments.quick);
    if (!arguments.pictures_only) {
        say("review");
        json["review"] = bench::review(set, pictures.runs, 30.0);
        say("bake");
        json["bake"] = bench::bake(set, 32, 3, 500.0);
        say("reference");
        json["reference_640x360"] = arguments.quick ? bench::reference(set, 8, 3, 750.0)
                                                    : bench::reference(set, 64, 3, 6000.0);
        say("growth");
        json["growth"] = bench::growth(set, arguments.quick);
    }
    std::cout << json.dump(2) << '\n';
    return 0;
}

} // namespace

int main(int count, char** words) {
    Arguments arguments;
    CLI::App app("What Keystead costs on this machine: one JSON object on stdout.");
    app.add_option("SET", arguments.set, "set file (*.json) with a light or more")->required();
    app.add_option("--filler", arguments.filler, "automatic, opengl or processor")
        ->check(CLI::IsMember({"automatic", "opengl", "processor"}));
    app.add_flag("--quick", arguments.quick, "smaller and fewer runs: under 40 s");
    app.add_flag("--pictures", arguments.pictures_only, "only what edits and pictures cost");
    app.add_option("--window", arguments.window,
                   "only what frames of the window cost while something is dragged, at sizes "
                   "like 1280x720");
    app.add_option("--obj", arguments.obj,
                   "write the scene as Wavefront OBJ for another ray tracer to trace, and leave");
    CLI11_PARSE(app, count, words);
    return run(arguments);
}
