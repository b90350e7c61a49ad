#include "engine/ui/still_maker.h"

#include "engine/render/png.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <mutex>
#include <thread>

namespace keystead::ui {

RgbaImage with_band(const RgbaImage& picture, const RgbaImage& band) {
    if (band.width != picture.width) return picture;
    RgbaImage whole{picture.width, picture.height + band.height, picture.pixels};
    whole.pixels.insert(whole.pixels.end(), band.pixels.begin(), band.pixels.end());
    return whole;
}

struct StillMaker::Data {
    std::thread worker;
    std::atomic<bool> stop{false};
    mutable std::mutex mutex;
    StillProgress now;
    std::optional<StillEnd> end;
    std::function<void()> wake;

    /// True while it may go on.
    bool told(double share) {
        bool more = false;
        {
            const std::lock_guard lock(mutex);
            more = std::floor(100.0 * share) > std::floor(100.0 * now.share);
            now.share = std::clamp(share, 0.0, 1.0);
        }
        if (more && wake) wake();
        return !stop;
    }

    void make(const std::shared_ptr<const Studio>& studio, StillOptions options,
              const RgbaImage& band, const std::filesystem::path& file) {
        options.progress = [this](double share) { return told(share); };
        const Result<Still> still = render_still(studio, options);
        StillEnd done{file, std::nullopt, stop};
        if (!stop) {
            if (!still)
                done.problem = still.problem();
            else
                done.problem = write_png(with_band(still.value().picture, band), file);
        }
        {
            const std::lock_guard lock(mutex);
            end = std::move(done);
            now.busy = false;
        }
        if (wake) wake();
    }
};

StillMaker::StillMaker()
    : data_(std::make_unique<Data>()) {}

StillMaker::~StillMaker() {
    stop();
    if (data_->worker.joinable()) data_->worker.join();
}

bool StillMaker::start(std::shared_ptr<const Studio> studio, StillOptions options, RgbaImage band,
                       std::filesystem::path file, std::function<void()> wake) {
    if (!studio || progress().busy) return false;
    if (data_->worker.joinable()) data_->worker.join();
    data_->stop = false;
    data_->wake = std::move(wake);
    {
        const std::lock_guard lock(data_->mutex);
        data_->now = {true, 0.0, options.width_px, options.height_px, file};
        data_->end.reset();
    }
    data_->worker =
        std::thread([data = data_.get(), studio = std::move(studio), options = std::move(options),
                     band = std::move(band),
                     file = std::move(file)] { data->make(studio, options, band, file); });
    return true;
}

void StillMaker::stop() {
    data_->stop = true;
}

StillProgress StillMaker::progress() const {
    const std::lock_guard lock(data_->mutex);
    return data_->now;
}

std::optional<StillEnd> StillMaker::take_end() {
    const std::lock_guard lock(data_->mutex);
    return std::exchange(data_->end, std::nullopt);
}

} // namespace keystead::ui
