#include "engine/ui/canvas.h"

#include <chrono>

namespace keystead::ui {

namespace {

/// Longest time that a sample may take while something is dragged.
constexpr double moving_sample_s = 0.030;

double now_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

/// Nothing but time tells the two apart.
bool asks_the_same(const PictureJob& a, const PictureJob& b) {
    return a.studio == b.studio && a.bounce.light == b.bounce.light &&
           sees_the_same(a.view, b.view) && a.width == b.width && a.height == b.height &&
           a.target == b.target && a.display == b.display;
}

} // namespace

/// A filler and what was last asked of it: used by one thread at a time.
class Canvas::Easel {
public:
    explicit Easel(Presenter& presenter)
        : presenter_(presenter) {}

    PictureMade work(const PictureJob& job, const std::function<bool()>& stop) {
        Filler& filler = presenter_.filler();
        const bool other = prepare(filler, job);
        PictureMade made;
        made.job = job;
        made.shown.trouble = filler.problem();
        bool added = false;
        const double start = now_s();
        while (made.shown.trouble.empty()) {
            const double before = now_s();
            made.more = filler.refine(job.target);
            if (!made.more) break;
            added = true;
            if (job.measure_noise) noise_.look(filler, light_);
            const double now = now_s();
            made.pixel_s = (now - before) / (static_cast<double>(job.width) * job.height);
            if (now - start >= job.budget_s || stop()) break;
        }
        made.another = added || other;
        made.shown.width = job.width, made.shown.height = job.height;
        made.shown.target = job.target;
        made.shown.samples = filler.samples();
        made.shown.display = job.display;
        if (job.measure_noise) made.shown.noise_percent = noise_.percent();
        if (made.another) presenter_.develop(job.display);
        return made;
    }

private:
    /// True when the picture must be developed anew even without another sample.
    bool prepare(Filler& filler, const PictureJob& job) {
        bool other = false;
        if (last_.studio != job.studio) {
            filler.show(job.studio);
            ++light_;
            other = true;
        }
        if (last_.bounce.light != job.bounce.light) {
            filler.set_indirect(job.bounce.light, job.bounce.of ? *job.bounce.of : *job.studio);
            ++light_;
            other = true;
        }
        if (last_.width != job.width || last_.height != job.height) other = true, ++light_;
        if (!sees_the_same(job.view, last_.view)) ++light_;
        filler.look(job.view, job.width, job.height);
        other = other || !(last_.display == job.display);
        last_ = job;
        return other;
    }

    Presenter& presenter_;
    PictureJob last_;
    NoiseFigure noise_;
    std::uint64_t light_ = 0; ///< changes with whatever else than samples changes the light
};

Canvas::Canvas() = default;
Canvas::~Canvas() {
    hand_.reset(); // before what it works with
}

bool Canvas::keep_up(FillerKind kind, PictureJob job, const std::function<void()>& wake) {
    if (!presenter_) {
        presenter_ = std::make_unique<Presenter>(kind);
        easel_ = std::make_unique<Easel>(*presenter_);
        if (presenter_->on_processor())
            hand_ = std::make_unique<Newest<PictureJob, PictureMade>>(
                [easel = easel_.get()](const PictureJob& wanted, const auto& stop,
                                       const auto& show) { show(easel->work(wanted, stop)); },
                wake);
    }
    bool another = false;
    if (hand_) {
        if (auto made = hand_->take()) {
            another = made->another;
            const unsigned texture = another ? presenter_->upload() : shown_.texture;
            take(std::move(*made), texture);
        }
        // One at a time: what it develops is read here.
        const bool wanted = more_ || !asks_the_same(job, last_);
        if (wanted && !hand_->busy()) hand_->ask(std::move(job));
        return another;
    }
    if (!more_ && shown_.texture != 0 && asks_the_same(job, last_)) return false;
    PictureMade made = easel_->work(job, [] { return false; });
    another = made.another || shown_.texture == 0;
    const unsigned texture = another ? presenter_->upload() : shown_.texture;
    take(std::move(made), texture);
    return another;
}

void Canvas::take(PictureMade made, unsigned texture) {
    shown_ = std::move(made.shown);
    shown_.texture = texture;
    last_ = std::move(made.job);
    more_ = made.more;
    if (made.pixel_s > 0.0) pixel_s_ = made.pixel_s;
}

bool Canvas::busy() const {
    return hand_ && hand_->busy();
}

bool Canvas::refining() const {
    return more_ || busy();
}

float Canvas::size_for(bool hurried, bool anew, float width, float height) {
    constexpr float steps[] = {0.5F, 0.35F, 0.25F, 0.18F};
    const auto sample_s = [&](float size) {
        return pixel_s_ * static_cast<double>(width * size) * static_cast<double>(height * size);
    };
    if (hurried && !was_hurried_) {
        shrink_ = steps[0];
        for (const float step : steps)
            if (sample_s(shrink_) > moving_sample_s) shrink_ = step;
    } else if (hurried && anew && sample_s(shrink_) > 2.0 * moving_sample_s) {
        for (const float step : steps)
            if (step < shrink_) {
                shrink_ = step;
                break;
            }
    }
    was_hurried_ = hurried;
    return hurried ? shrink_ : 1.0F;
}

std::string Canvas::device() {
    return presenter_ ? presenter_->filler().device() : std::string();
}

} // namespace keystead::ui
