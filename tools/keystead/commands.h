// The program's commands. Results go to stdout, messages to stderr; each returns an exit code.
#pragma once

#include <string>
#include <vector>

namespace keystead {

struct OpenArguments {
    std::string set;
    std::string theme;      ///< dark, light; empty: as last time
    double scale = 0.0;     ///< user-interface scale; 0: what the screen says
    std::string screenshot; ///< write the window as a PNG and leave
    std::string frame_log;  ///< one JSON line a frame goes there
    std::string size = "1280x720";
    bool learn = false;               ///< shadows named, patterns charted
    std::string view;                 ///< arrangement: upright, landscape, row, room
    std::string select;               ///< screenshot only: what is selected
    std::string filler = "automatic"; ///< automatic, opengl, processor
};
int open_command(const OpenArguments& arguments);

struct ReviewArguments {
    std::string set;
    bool json = false;
    bool quick = false; ///< leave out how far the head may turn
};
int review_command(const ReviewArguments& arguments);

struct MeterArguments {
    std::string set;
    std::string at; ///< only this point; empty: all
    bool json = false;
    std::string measured;   ///< list of readings to take in, "-" for stdin; empty: none
    std::string into;       ///< set file to write with those readings; empty: none
    bool calibrate = false; ///< with `into`: each light read is calibrated by its correction
};
/// What a hand meter reads in the set.
int meter_command(const MeterArguments& arguments);

struct FalloffArguments {
    std::string set;
    std::string light;
    double from_m = 1.0, to_m = 3.0;
    std::string read;  ///< a reading to calibrate the head by, first; empty: as the set has it
    double at_m = 1.5; ///< where it was read
    bool json = false;
};
/// A light's f-numbers over distance, beside the inverse-square rule.
int falloff_command(const FalloffArguments& arguments);

struct StillArguments {
    std::string set;
    std::string out;
    std::string size; ///< WIDTHxHEIGHT; empty: the camera's frame, 1280 on the long side
    int samples = 0;  ///< 0: the renderer's default
    std::string view = "lens";
    bool direct_only = false;
    std::string shown = "picture";  ///< picture, stops
    bool clipping = false;          ///< mark what is full or black
    int bits = 8;                   ///< of a PNG: 8 or 16
    bool reference = false;         ///< by the path tracer
    int bounces = 3;                ///< reference only
    unsigned seed = 1;              ///< reference only
    std::vector<std::string> looks; ///< skin, print, glare: what is look and not light
    std::string filler = "automatic";
};
int still_command(const StillArguments& arguments);

struct ChartArguments {
    std::string set;
    std::string out;
    std::string light; ///< id; empty: the key
    std::string size = "1600x960";
};
/// Which pattern a light would make from every direction, as a plate.
int chart_command(const ChartArguments& arguments);

struct AgreeArguments {
    std::vector<std::string> sets;
    std::string out = "."; ///< folder for pictures and difference maps
    std::string size = "480x270";
    int samples = 128;         ///< paths a pixel of the reference
    int points = 64;           ///< samples of every light of the quick picture
    bool direct_only = false;  ///< both without bounced light
    bool matt = false;         ///< both without highlights
    bool matt_bounces = false; ///< the reference's bounces answer as a bake's do
    bool face = false;         ///< instead: the simulation's face map against the picture
    bool edges = false;        ///< instead: the review's separation against the path tracer
};
/// The quick picture of each set against the reference's.
int agree_command(const AgreeArguments& arguments);

struct CompareArguments {
    std::string first, second;
    std::string out; ///< sheet with both pictures (*.png); empty: only the table
    int height_px = 480;
    int samples = 0; ///< 0: the renderer's default
};
/// Two sets side by side, and what differs.
int compare_command(const CompareArguments& arguments);

struct PlateArguments {
    std::string out;
    std::string kind = "heads"; ///< heads, patterns, ten-patterns, modifiers
    bool hard = false;          ///< heads: a small lamp instead of a soft box
    int samples = 0;            ///< 0: the plate's default
    std::string size;           ///< of one picture, WIDTHxHEIGHT; empty: the plate's default
};
int plate_command(const PlateArguments& arguments);

struct PhotometricArguments {
    std::string file;
    std::string polar; ///< SVG to write; empty: none
};
/// Says what was understood of a photometric file.
int photometric_command(const PhotometricArguments& arguments);

struct ImportArguments {
    std::string file;
    bool json = false;
    std::string into; ///< set file to put it into; empty: only report
    std::string as = "subject";
    std::string part;     ///< head, bust, figure; empty: by what was found
    std::string unit, up; ///< both stated, or the offers are printed and nothing is written
};
/// Says what was understood of a mesh file; puts it into a set where unit and up axis are stated.
int import_command(const ImportArguments& arguments);

} // namespace keystead
