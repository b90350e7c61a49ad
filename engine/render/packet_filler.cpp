#include "engine/render/packet_filler.h"

#include "engine/render/baked_parts.h"
#include "engine/render/packet_layers.h"
#include "engine/render/restart.h"
#include "engine/render/scene_changes.h"
#include "engine/render/work_light.h"
#include "sim/transport/fill.h"
#include "sim/transport/lens_sight.h"
#include "sim/transport/light_sequence.h"
#include "sim/transport/seen.h"

#include <algorithm>
#include <array>
#include <bit>

namespace keystead {

namespace {

/// What pixels see is kept for as many sub-pixel places as fit in this.
constexpr std::size_t seen_budget_bytes = std::size_t{96} << 20U;
constexpr unsigned all_sets = (1U << jitter_sets) - 1U;

/// Rays over the picture that show where anything is.
constexpr int probes_wide = 48, probes_high = 30;

} // namespace

struct PacketFiller::Data {
    std::string problem; ///< there is none: all this needs is a processor
    RenderOptions options;
    std::shared_ptr<const Studio> studio;
    View view;
    PictureSize size;
    PacketLayers layers; ///< one a light, then the work light's, then as many of indirect light
    std::vector<int> counts;
    unsigned indirect_sets = 0; ///< sub-pixel places that the indirect layers hold
    std::shared_ptr<const IndirectLight> baked;
    std::vector<BakedName> baked_names;
    std::vector<int> baked_of_part; ///< one a part of the scene; empty: nothing usable
    Emitter work_light;
    struct Seen {
        std::shared_ptr<const SeenPicture> picture;
        int set = -1;
    };
    std::vector<Seen> seen;
    std::vector<glm::vec3> places_m; ///< spread over what is visible; empty: not found yet
    PacketRemix remix;

    bool ready() const { return studio && size.width_px > 0; }
    std::size_t lights() const { return studio ? studio->emitters.size() : 0; }

    void restart(std::size_t layer) {
        if (layer >= counts.size() || counts[layer] == 0) return;
        clear_layer(layers, layer);
        counts[layer] = 0;
    }
    void restart_all() {
        for (std::size_t i = 0; i < counts.size(); ++i) restart(i);
    }
    void forget_picture() {
        for (Seen& one : seen) one.set = -1;
        places_m.clear();
    }
    void drop_indirect() {
        if (indirect_sets == 0) return;
        for (std::size_t i = counts.size(); i < layers.sums.size(); ++i) clear_layer(layers, i);
        indirect_sets = 0;
    }

    void fit_layers() {
        const std::size_t needed = 2 * (lights() + 1);
        if (layers.size == size && layers.sums.size() == needed) return;
        layers = make_packet_layers(size, needed);
        counts.assign(lights() + 1, 0);
        indirect_sets = 0;
    }

    const SeenPicture& seen_at(int set) {
        if (seen.empty()) seen.resize(1);
        Seen& one = seen[static_cast<std::size_t>(set) % seen.size()];
        if (one.set != set || one.picture == nullptr) {
            one.picture = see_picture(*studio, view, size, set_offset_px(set), one.picture.get());
            one.set = set;
            const std::size_t fit =
                seen_budget_bytes / std::max<std::size_t>(1, one.picture->bytes());
            const auto wanted = std::clamp<std::size_t>(fit, 1, jitter_sets);
            // The first picture tells how much one takes.
            if (seen.size() == 1 && wanted > 1) {
                Seen first = std::move(seen[0]);
                seen.assign(wanted, {});
                seen[static_cast<std::size_t>(set) % wanted] = std::move(first);
                return *seen[static_cast<std::size_t>(set) % wanted].picture;
            }
        }
        return *one.picture;
    }

    const std::vector<glm::vec3>& visible_places() {
        if (!places_m.empty()) return places_m;
        std::vector<RayQuery> rays;
        for (int y = 0; y < probes_high; ++y)
            for (int x = 0; x < probes_wide; ++x) {
                const double across = 2.0 * (x + 0.5) / probes_wide - 1.0;
                const double up = 1.0 - 2.0 * (y + 0.5) / probes_high;
                rays.push_back(
                    {view.eye_m, glm::normalize(sight_line(view, Vec2(across, up))), 0.05, 80.0});
            }
        std::vector<RayHit> hits(rays.size());
        studio->rays->first_hits(rays, ray_mask::all, hits);
        for (std::size_t i = 0; i < rays.size(); ++i)
            if (hits[i].mesh != ray_miss)
                places_m.emplace_back(rays[i].origin_m + hits[i].distance_m * rays[i].direction);
        return places_m;
    }

    void take_indirect() {
        drop_indirect();
        baked_of_part.clear();
        if (!baked || baked->emitters != lights() + 1) return;
        std::vector<BakedWanted> wanted;
        for (const ScenePart& part : studio->scene.parts)
            wanted.push_back({part.owner, part.part, part.mesh.get()});
        baked_of_part = baked_parts(*baked, baked_names, wanted);
    }

    bool wanted(std::size_t layer, int target) const {
        if (layer < lights()) return studio->emitters[layer].power > 0.0 && counts[layer] < target;
        // The work light needs no finer shadows than these.
        return layer == lights() && view.work_light && counts[layer] < std::min(target, 32);
    }

    SurfaceAnswer answer() const { return {options.specular, options.skin_wrap}; }

    void add_samples(std::size_t layer, int most) {
        const bool work = layer == lights();
        const Emitter& emitter = work ? work_light : studio->emitters[layer];
        const int first = counts[layer];
        const int count = std::min(most, samples_per_set - first % samples_per_set);
        std::vector<EmitterPoint> points;
        for (int i = 0; i < count; ++i) {
            const glm::dvec2 place = light_sample(static_cast<std::uint32_t>(first + i));
            points.push_back(emitter_point(emitter, place.x, place.y));
        }
        const SeenPicture& picture = seen_at(sample_set(static_cast<std::uint32_t>(first)));
        SurfaceAnswer surfaces = answer();
        if (work && baked_of_part.empty())
            surfaces.ambient =
                static_cast<float>(work_light_ambient_share * work_light_factor(work_light));
        const LayerMemory memory = to_fill(layers, layer);
        add_direct(*studio, picture, view, emitter, static_cast<int>(layer), points, surfaces,
                   memory.sums, memory.fresh);
        counts[layer] += count;
    }

    bool indirect_wanted() const { return !baked_of_part.empty() && indirect_sets != all_sets; }

    void add_indirect_set() {
        // In the order of the direct samples: what is seen from there is known already.
        std::uint32_t sample = 0;
        while ((indirect_sets >> static_cast<unsigned>(sample_set(sample)) & 1U) != 0)
            sample += samples_per_set;
        const int set = sample_set(sample);
        const SeenPicture& picture = seen_at(set);
        for (std::size_t i = 0; i < counts.size(); ++i) {
            if (i == lights() && !view.work_light) continue;
            add_indirect(*studio, picture, *baked, baked_of_part, i, answer(),
                         writable(layers, counts.size() + i));
        }
        indirect_sets |= 1U << static_cast<unsigned>(set);
    }

    /// Direct and indirect layer of one light, in the order of the layers.
    void add_weights(std::vector<PacketWeight>& weights, std::size_t light,
                     const glm::vec3& of_one) const {
        weights.push_back({light, light, of_one / static_cast<float>(std::max(1, counts[light]))});
        const int sets = std::popcount(indirect_sets);
        if (sets > 0)
            weights.push_back({counts.size() + light, light, of_one / static_cast<float>(sets)});
    }

    /// Lights that are off count for nothing, but keep their place: turning one on or off changes
    /// one group.
    std::vector<PacketWeight> measured_weights() const {
        std::vector<PacketWeight> weights;
        for (std::size_t i = 0; i < lights(); ++i)
            add_weights(weights, i,
                        layer_factor(studio->emitters[i], studio->set.camera.shutter_s, true, 1));
        return weights;
    }
};

PacketFiller::PacketFiller()
    : data_(std::make_unique<Data>()) {}
PacketFiller::~PacketFiller() = default;

const std::string& PacketFiller::problem() const {
    return data_->problem;
}

std::string PacketFiller::device() const {
    return "the processor, rays in packets of 16";
}

void PacketFiller::set_options(const RenderOptions& options) {
    if (options == data_->options) return;
    data_->options = options;
    data_->restart_all();
    data_->drop_indirect();
}

void PacketFiller::show(std::shared_ptr<const Studio> studio) {
    Data& d = *data_;
    const std::shared_ptr<const Studio> before = std::exchange(d.studio, std::move(studio));
    d.work_light = make_work_light(d.studio->set.room);
    if (d.size.width_px <= 0) return;
    std::vector<SceneChange> changes;
    Restart restart;
    if (before && !d.layers.sums.empty()) {
        changes = scene_changes(before->scene, d.studio->scene);
        const glm::mat4 sight =
            clip_from_room(d.view, d.size.width_px, d.size.height_px, glm::vec2(0.0F));
        restart = restarts_after(*before, *d.studio, changes, sight, d.visible_places());
    } else {
        restart.picture = true;
    }
    d.fit_layers();
    if (!changes.empty()) d.take_indirect();
    // Lenses mirror what is out of sight, too.
    if (!changes.empty() && wears_lenses(*d.studio)) restart.picture = true;
    if (restart.picture) {
        d.forget_picture();
        d.drop_indirect();
        d.restart_all();
        return;
    }
    for (std::size_t i = 0; i < restart.lights.size(); ++i)
        if (restart.lights[i] != 0) d.restart(i);
}

void PacketFiller::look(const View& view, int width_px, int height_px) {
    Data& d = *data_;
    const PictureSize size{std::max(1, width_px), std::max(1, height_px)};
    const bool same_place = sees_the_same(view, d.view);
    const bool same_size = size == d.size;
    d.view = view;
    if (same_place && same_size) return;
    if (!same_size) d.seen.clear();
    d.size = size;
    d.forget_picture();
    d.fit_layers();
    d.drop_indirect();
    d.restart_all();
}

void PacketFiller::set_indirect(std::shared_ptr<const IndirectLight> light, const Studio& of) {
    Data& d = *data_;
    d.baked = std::move(light);
    d.baked_names.clear();
    for (const ScenePart& part : of.scene.parts) d.baked_names.push_back({part.owner, part.part});
    if (!d.studio) return;
    d.take_indirect();
    // Its ambient share is in the bake, or is not any more.
    if (d.ready()) d.restart(d.lights());
}

bool PacketFiller::refine(int target_samples, int per_light) {
    Data& d = *data_;
    if (!d.ready()) return false;
    bool any = false;
    for (std::size_t layer = 0; layer < d.counts.size(); ++layer) {
        if (!d.wanted(layer, target_samples)) continue;
        d.add_samples(layer, std::min(std::max(1, per_light), target_samples - d.counts[layer]));
        any = true;
    }
    // Asked when something moves: found now, so that an edit that moves nothing casts no ray.
    if (any) d.visible_places();
    if (d.indirect_wanted()) {
        d.add_indirect_set();
        any = true;
    }
    return any;
}

int PacketFiller::samples() const {
    return data_->studio ? fewest_samples(data_->studio->emitters, data_->counts) : 0;
}

int PacketFiller::samples_of(int light) const {
    const auto i = static_cast<std::size_t>(light);
    return light >= 0 && i < data_->counts.size() ? data_->counts[i] : 0;
}

void PacketFiller::develop(const Display& display, bool bottom_first, RgbaImage& shown) {
    Data& d = *data_;
    if (!d.ready()) return;
    std::vector<PacketWeight> weights = d.measured_weights();
    if (d.view.work_light)
        d.add_weights(weights, d.lights(), work_light_weight(d.work_light, display.exposure, 1));
    d.remix.develop(d.layers, weights, display, bottom_first, shown);
}

RgbaImage PacketFiller::read_display(const Display& display) {
    RgbaImage shown;
    develop(display, false, shown);
    return shown;
}

LinearImage PacketFiller::read_linear(int only_light) {
    Data& d = *data_;
    if (!d.ready()) return {};
    std::vector<PacketWeight> weights;
    if (only_light < 0)
        weights = d.measured_weights();
    else if (const auto light = static_cast<std::size_t>(only_light); light < d.lights())
        d.add_weights(
            weights, light,
            layer_factor(d.studio->emitters[light], d.studio->set.camera.shutter_s, false, 1));
    return PacketRemix::linear(d.layers, weights);
}

std::size_t PacketFiller::bytes() const {
    std::size_t sum = data_->remix.bytes();
    for (const LaneMemory& layer : data_->layers.sums) sum += layer.bytes();
    for (const Data::Seen& one : data_->seen)
        if (one.picture) sum += one.picture->bytes();
    return sum;
}

} // namespace keystead
