#include "tools/keystead/reference_still.h"

#include "engine/render/develop.h"
#include "sim/transport/reference.h"

#include <chrono>
#include <cstdio>
#include <unistd.h>

namespace keystead {

namespace {

/// Writes share done and time left to a terminal, ten times a second.
class Progress {
public:
    bool operator()(double share) {
        const auto now = std::chrono::steady_clock::now();
        const std::chrono::duration<double> since_told = now - told_, since_start = now - start_;
        if (share < 1.0 && since_told.count() < 0.1) return true;
        told_ = now;
        const double left_s = since_start.count() * (1.0 - share) / share;
        std::fprintf(stderr, "\r%3.0f %%, %.0f s left  %s", 100.0 * share, left_s,
                     share >= 1.0 ? "\n" : "");
        return true;
    }

private:
    std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
    std::chrono::steady_clock::time_point told_{};
};

} // namespace

Result<Still> reference_still(const Studio& studio, const StillOptions& options,
                              const StillArguments& arguments) {
    if (arguments.samples == 1)
        return Problem{"--samples", "1", "is too few to know the error; two are the least"};
    if (!arguments.looks.empty())
        return Problem{"--look", arguments.looks.front(),
                       "is a look; --reference shows light alone"};
    ReferenceOptions wanted;
    wanted.width_px = options.width_px;
    wanted.height_px = options.height_px;
    wanted.samples = options.samples;
    wanted.bounces = options.indirect ? arguments.bounces : 0;
    wanted.seed = arguments.seed;
    wanted.specular = options.surfaces.specular;
    Progress progress;
    if (isatty(STDERR_FILENO) != 0)
        wanted.progress = [&progress](double share) { return progress(share); };
    const Camera& camera = studio.set.camera;
    const View view = options.view.value_or(lens_view(camera, options.width_px, options.height_px));
    ReferencePicture traced = trace_reference(studio, view, wanted);
    Still still;
    still.linear = {traced.width_px, traced.height_px, std::move(traced.radiance)};
    still.error = {traced.width_px, traced.height_px, std::move(traced.standard_error)};
    still.picture =
        developed(still.linear, options.display.value_or(camera_display(camera, studio.set.meter)));
    still.samples = traced.samples;
    still.device = "the path tracer, " + std::to_string(wanted.bounces) + " bounces, seed " +
                   std::to_string(wanted.seed);
    return still;
}

} // namespace keystead
