#include "tools/bench/picture_bench.h"

#include "engine/render/packet_filler.h"
#include "engine/render/renderer.h"
#include "sim/set/set_io.h"
#include "sim/studio/studio.h"

#include <cmath>
#include <functional>
#include <glad/gl.h>

namespace keystead::bench {

namespace {

/// A window's worth of state: the studio as edited so far and the picture of it.
class Easel {
public:
    Easel(const PictureBench& bench, int width_px, int height_px)
        : kind_(bench.filler)
        , set_(bench.set)
        , filler_(make_filler(bench.filler))
        , width_px_(width_px)
        , height_px_(height_px) {
        take();
        filler_->look(lens_view(set_.camera, width_px, height_px), width_px, height_px);
        refine(1);
        develop();
    }

    /// The edit, the studio after it, and one sample of what it touched, shown.
    double edit_ms(const std::function<void(Set&)>& edit) {
        return ms_of([&] {
            edit(set_);
            take();
            refine(1);
            develop();
        });
    }

    /// Lights whose layer the last edit emptied.
    int lights_redone() const { return lights_redone_; }
    std::uint64_t rays_cast() const { return studio_->rays->rays_cast(); }
    const std::shared_ptr<const Studio>& studio() const { return studio_; }

    void refine(int samples) {
        while (filler_->refine(samples, 4)) {
        }
        if (kind_ == FillerKind::opengl) glFinish();
    }
    void develop() {
        const Display display = camera_display(set_.camera, set_.meter);
        if (auto* packets = dynamic_cast<PacketFiller*>(filler_.get())) {
            packets->develop(display, true, shown_);
        } else {
            static_cast<Renderer&>(*filler_).present(display);
            glFinish();
        }
    }
    LinearImage linear() { return filler_->read_linear(); }
    /// Empties every layer: the camera looks away and back.
    void start_again() {
        View view = lens_view(set_.camera, width_px_, height_px_);
        view.eye_m.x += 1e-9;
        filler_->look(view, width_px_, height_px_);
        view.eye_m.x -= 1e-9;
        filler_->look(view, width_px_, height_px_);
    }

private:
    void take() {
        studio_ = make_studio(set_, studio_);
        filler_->show(studio_);
        lights_redone_ = 0;
        for (std::size_t i = 0; i < set_.lights.size(); ++i)
            if (filler_->samples_of(static_cast<int>(i)) == 0) ++lights_redone_;
    }

    FillerKind kind_;
    Set set_;
    std::shared_ptr<const Studio> studio_;
    std::unique_ptr<Filler> filler_;
    RgbaImage shown_;
    int lights_redone_ = 0;
    int width_px_, height_px_;
};

std::vector<double> repeated(int runs, const std::function<double(int)>& one) {
    std::vector<double> values;
    for (int i = 0; i < runs + 2; ++i) {
        const double ms = one(i);
        if (i >= 2) values.push_back(ms); // the first two fill caches
    }
    return values;
}

/// RMS error over the mean, of the three channels together; values above `full` count as that.
double error_of(const LinearImage& picture, const LinearImage& truth, double full) {
    const glm::dvec3 most(full);
    double square = 0.0, sum = 0.0;
    for (std::size_t i = 0; i < truth.pixels.size(); ++i) {
        const glm::dvec3 wanted = glm::min(glm::dvec3(truth.pixels[i]), most);
        const glm::dvec3 off = glm::min(glm::dvec3(picture.pixels[i]), most) - wanted;
        square += glm::dot(off, off);
        sum += wanted.r + wanted.g + wanted.b;
    }
    const auto values = static_cast<double>(3 * truth.pixels.size());
    return std::sqrt(square / values) / (sum / values);
}

} // namespace

Json edits(const PictureBench& bench, int width_px, int height_px, double one_aim_ms,
           double all_aim_ms, double remix_aim_ms) {
    Easel easel(bench, width_px, height_px);
    Json json;
    json["one_light_dragged"] = figure(repeated(bench.runs,
                                                [&](int i) {
                                                    return easel.edit_ms([&](Set& set) {
                                                        set.lights[0].support.base.position_m.x +=
                                                            i % 2 == 0 ? 0.01 : -0.01;
                                                    });
                                                }),
                                       one_aim_ms);
    json["one_light_dragged"]["lights_redone"] = easel.lights_redone();
    json["head_turned"] = figure(repeated(bench.runs / 2 + 1,
                                          [&](int i) {
                                              return easel.edit_ms([&](Set& set) {
                                                  set.subject.head_turn_deg +=
                                                      i % 2 == 0 ? 1.0 : -1.0;
                                              });
                                          }),
                                 all_aim_ms);
    const std::uint64_t before = easel.rays_cast();
    const auto remix = [&](const char* name, const std::function<void(Set&, int)>& edit) {
        json[name] =
            figure(repeated(bench.runs,
                            [&](int i) { return easel.edit_ms([&](Set& set) { edit(set, i); }); }),
                   remix_aim_ms);
    };
    remix("power",
          [](Set& set, int i) { set.lights[0].head.power_stops_below += i % 2 == 0 ? 0.1 : -0.1; });
    remix("gel",
          [](Set& set, int i) { set.lights[0].head.colour_k = i % 2 == 0 ? 4300.0 : 5600.0; });
    remix("mute", [](Set& set, int i) { set.lights[0].on = i % 2 != 0; });
    remix("exposure", [](Set& set, int i) { set.camera.f_number = i % 2 == 0 ? 5.6 : 8.0; });
    json["rays_cast_by_power_gel_mute_exposure"] = easel.rays_cast() - before;
    return json;
}

Json convergence(const PictureBench& bench, int width_px, int height_px, double aim_1_percent_ms,
                 double aim_half_percent_ms) {
    Easel easel(bench, width_px, height_px);
    constexpr int truth_samples = 1024;
    easel.refine(truth_samples);
    const LinearImage truth = easel.linear();
    // What a picture can show: the sensor is full above that.
    const Display display = camera_display(bench.set.camera, bench.set.meter);
    const double full = display.full_tone / display.exposure;
    Json json;
    json["truth_samples"] = truth_samples;
    Json& steps = json["steps"] = Json::array();
    double time_1 = 0.0, time_half = 0.0;
    for (int samples = 4; samples <= 256 && time_half <= 0.0; samples *= 2) {
        std::vector<double> runs;
        const std::uint64_t before = easel.rays_cast();
        for (int run = 0; run < 3; ++run) {
            easel.start_again();
            runs.push_back(ms_of([&] {
                easel.refine(samples);
                easel.develop();
            }));
        }
        const LinearImage now = easel.linear();
        const double error = error_of(now, truth, full), ms = median(runs);
        const double rays = static_cast<double>(easel.rays_cast() - before) / 3.0;
        steps.push_back(
            {{"samples", samples},
             {"error_percent", std::round(error * 1e5) / 1e3},
             {"error_with_highlights_percent", std::round(error_of(now, truth, 1e30) * 1e5) / 1e3},
             {"median_ms", std::round(ms * 100.0) / 100.0},
             {"rays_m_s", std::round(rays / ms / 10.0) / 100.0}});
        if (error <= 0.01 && time_1 <= 0.0) time_1 = ms;
        if (error <= 0.005) time_half = ms;
    }
    const auto reached = [&](const char* name, double ms, double aim_ms) {
        json[name] = {{"median_ms", std::round(ms * 100.0) / 100.0}};
        if (aim_ms > 0.0) {
            json[name]["aim_ms"] = aim_ms;
            json[name]["met"] = ms > 0.0 && ms <= aim_ms;
        }
    };
    reached("to_1_percent", time_1, aim_1_percent_ms);
    reached("to_half_percent", time_half, aim_half_percent_ms);
    return json;
}

Json first_picture(const PictureBench& bench, int width_px, int height_px, double aim_ms) {
    const std::string text = write_set(bench.set);
    std::vector<double> runs;
    for (int i = 0; i < 3; ++i)
        runs.push_back(ms_of([&] {
            PictureBench fresh = bench;
            fresh.set = parse_set(text).value().set;
            const Easel easel(fresh, width_px, height_px);
        }));
    return figure(runs, aim_ms);
}

} // namespace keystead::bench
