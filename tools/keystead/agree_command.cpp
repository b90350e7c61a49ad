#include "engine/render/agreement.h"
#include "engine/render/develop.h"
#include "engine/render/png.h"
#include "engine/render/still.h"
#include "tools/keystead/agree_edges.h"
#include "tools/keystead/agree_face.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <cstdio>
#include <filesystem>

namespace keystead {

namespace {

/// Mean over the face within this of the reference is called agreement.
constexpr double face_tolerance = 0.01;
/// Of both pictures: later ones cost the path tracer much and tell nothing new.
constexpr int compared_bounces = 3;

struct Pictures {
    LinearImage picture;
    ReferencePicture reference;
};

Outcome write_pictures(const Pictures& made, const Display& display,
                       const std::filesystem::path& stem) {
    const LinearImage traced{made.reference.width_px, made.reference.height_px,
                             made.reference.radiance};
    const auto with = [&stem](const char* end) {
        std::filesystem::path file = stem;
        file += end;
        return file;
    };
    if (Outcome bad = write_png(developed(made.picture, display), with("-picture.png"))) return bad;
    if (Outcome bad = write_png(developed(traced, display), with("-reference.png"))) return bad;
    return write_png(difference_map(made.picture, made.reference), with("-difference.png"));
}

void print_mean(const char* what, const RegionMean& mean) {
    if (mean.pixels == 0) {
        std::printf("  %-10s not in the picture\n", what);
        return;
    }
    std::printf("  %-10s %10.4g %10.4g  %+6.2f %% ± %.2f  (%zu pixels)\n", what, mean.picture,
                mean.reference, 100.0 * mean.excess(), 100.0 * mean.excess_error(), mean.pixels);
}

void print_agreement(const std::string& set, const std::string& device, const Agreement& found) {
    std::printf("%s, drawn by %s\n  %-10s %10s %10s  difference (cd·s/m²)\n", set.c_str(),
                device.c_str(), "mean over", "picture", "reference");
    print_mean("face", found.face);
    print_mean("picture", found.picture);
    std::printf("  within three standard errors %.1f %%; or within 2 %% %.1f %%\n",
                100.0 * found.within_error, 100.0 * found.within_loose);
    for (const Place& place : found.worst)
        std::printf("  at %d, %d (%s %s): %+.1f %% ± %.1f, %+.1f %% of grey\n", place.x_px,
                    place.y_px, place.owner.c_str(), place.part.c_str(),
                    100.0 * place.mean.excess(), 100.0 * place.mean.excess_error(),
                    100.0 * place.off_grey);
}

/// Exit code for one set: done, finding where its face is off, or what stopped it.
int compare_set(const std::string& file, const AgreeArguments& arguments, const PixelSize& size) {
    const std::optional<Set> set = load_or_complain(file);
    if (!set) return exit_code::input;
    const std::shared_ptr<const Studio> studio = studio_or_complain(*set, file);
    if (studio == nullptr) return exit_code::input;
    const auto stem = std::filesystem::path(arguments.out) / std::filesystem::path(file).stem();
    if (arguments.face) return agree_face(file, studio, stem);
    if (arguments.edges) return agree_edges(file, studio, arguments.samples, stem);
    const View view = lens_view(set->camera, size.width, size.height);
    StillOptions quick;
    quick.width_px = size.width;
    quick.height_px = size.height;
    quick.samples = arguments.points;
    quick.linear = true;
    quick.indirect = !arguments.direct_only;
    quick.surfaces.specular = !arguments.matt;
    quick.bounces = compared_bounces;
    Result<Still> still = render_still(studio, quick);
    if (!still) {
        complain(still.problem().message());
        return exit_code::machine;
    }
    ReferenceOptions wanted;
    wanted.width_px = size.width;
    wanted.height_px = size.height;
    wanted.samples = arguments.samples;
    wanted.bounces = arguments.direct_only ? 0 : compared_bounces;
    wanted.specular = !arguments.matt;
    wanted.gloss_of_bounces = !arguments.matt_bounces;
    wanted.progress = show_progress;
    const Pictures made{std::move(still.value().linear), trace_reference(*studio, view, wanted)};
    const Display display = camera_display(set->camera, set->meter);
    const Agreement found =
        agreement(made.picture, made.reference, *studio,
                  parts_seen(*studio, view, size.width, size.height), display.exposure);
    print_agreement(file, still.value().device, found);
    if (Outcome failed = write_pictures(made, display, stem)) {
        complain(failed->message());
        return exit_code::input;
    }
    const bool off =
        std::abs(found.face.excess()) > face_tolerance + 3.0 * found.face.excess_error();
    return off ? exit_code::danger : exit_code::done;
}

} // namespace

int agree_command(const AgreeArguments& arguments) {
    const Result<PixelSize> size = parse_size(arguments.size);
    if (!size) {
        complain(size.problem().message());
        return exit_code::input;
    }
    std::error_code error;
    std::filesystem::create_directories(arguments.out, error);
    if (error) {
        complain(arguments.out + ": " + error.message());
        return exit_code::input;
    }
    int worst = exit_code::done;
    for (const std::string& set : arguments.sets)
        worst = std::max(worst, compare_set(set, arguments, size.value()));
    return worst;
}

} // namespace keystead
