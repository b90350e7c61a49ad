#include "sim/transport/bake.h"

#include "sim/shape/content_key.h"
#include "sim/transport/bake_state.h"
#include "sim/transport/light_path.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <limits>
#include <map>
#include <tbb/parallel_for.h>
#include <utility>

namespace keystead {

namespace {

using namespace light_path;

constexpr float buried_m = 0.004F; // skin under cloth has something this near all round
constexpr int coarse_paths = 8;    // of the first result shown

struct Box3 {
    glm::vec3 low_m{std::numeric_limits<float>::max()};
    glm::vec3 high_m{std::numeric_limits<float>::lowest()};
};

Box3 box_of(const Mesh& mesh) {
    Box3 box;
    for (const glm::vec3& p : mesh.positions_m) {
        box.low_m = glm::min(box.low_m, p);
        box.high_m = glm::max(box.high_m, p);
    }
    return box;
}

/// Does the segment come within a millimetre of the box?
bool meets(const Box3& box, const glm::vec3& from_m, const glm::vec3& to_m) {
    constexpr float margin_m = 1e-3F;
    float enter = 0.0F, leave = 1.0F;
    for (int axis = 0; axis < 3; ++axis) {
        const float low = box.low_m[axis] - margin_m - from_m[axis];
        const float high = box.high_m[axis] + margin_m - from_m[axis];
        const float way = to_m[axis] - from_m[axis];
        if (std::abs(way) < 1e-9F) {
            if (low > 0.0F || high < 0.0F) return false;
            continue;
        }
        const float a = low / way, b = high / way;
        enter = std::max(enter, std::min(a, b));
        leave = std::min(leave, std::max(a, b));
    }
    return enter <= leave * 1.00001F + 1e-6F;
}

bool in_the_way(const std::vector<Box3>& boxes, const glm::vec3& from_m, const glm::vec3& to_m) {
    return std::any_of(boxes.begin(), boxes.end(),
                       [&](const Box3& box) { return meets(box, from_m, to_m); });
}

double spacing_of(const ScenePart& part, const BakeOptions& options) {
    if ((part.mask & (ray_mask::subject | ray_mask::strands)) != 0)
        return options.subject_spacing_m;
    if ((part.mask & (ray_mask::room | ray_mask::background | ray_mask::panel)) != 0)
        return options.room_spacing_m;
    return options.gear_spacing_m;
}

std::shared_ptr<const BakeLayout> layout_of(const std::shared_ptr<const Mesh>& mesh,
                                            double spacing_m) {
    auto layout = std::make_shared<BakeLayout>();
    layout->mesh = mesh;
    layout->spacing_m = spacing_m;
    layout->points = spread_bake_points(*mesh, spacing_m);
    layout->shares = shares_of_vertices(*mesh, layout->points, spacing_m);
    for (const std::vector<BakeShare>& shares : layout->shares)
        layout->nearest.push_back(std::max_element(shares.begin(), shares.end(),
                                                   [](const BakeShare& a, const BakeShare& b) {
                                                       return a.share < b.share;
                                                   })
                                      ->point);
    return layout;
}

/// What an emitter sends, apart from how much.
std::uint64_t key_of(const Emitter& e) {
    ContentKey key;
    key.add(e.light).add(static_cast<int>(e.shape)).add(e.centre_m).add(e.axes);
    key.add(e.width_m).add(e.height_m).add(e.inner_width_m).add(e.depth_m).add(e.bulges);
    key.add(e.area_m2).add(e.hot_spot).add(e.deflector);
    key.add(e.beam.exponent).add(e.beam.cutoff_half_deg).add(e.beam.cutoff_edge_deg);
    key.add(e.beam.gain).add(e.front.half_width_m).add(e.front.half_height_m).add(e.front.lip_m);
    key.add(e.front.door_length_m).add(e.front.lamp_ahead_m).add(e.front.lamp_radius_m);
    for (const double sine : e.front.door_sine) key.add(sine);
    for (const double cosine : e.front.door_cosine) key.add(cosine);
    key.add(e.grid.has_value());
    if (e.grid)
        key.add(static_cast<int>(e.grid->cell))
            .add(e.grid->cell_width_m)
            .add(e.grid->cell_depth_m)
            .add(e.grid->open_fraction)
            .add(e.grid->wall_reflection);
    return key.add(static_cast<std::uint64_t>(reinterpret_cast<std::uintptr_t>(e.measured.get())))
        .value();
}

bool same(const Material& a, const Material& b) {
    return a.albedo == b.albedo && a.roughness == b.roughness && a.metal == b.metal &&
           a.transmission == b.transmission;
}

/// The bake under way: the new state, and what the old one leaves it.
struct Work {
    const World& world;
    const BakeOptions& options;
    const BakeState* old = nullptr; ///< null: from nothing
    BakeState state{};
    std::vector<int> old_part{};           ///< by part: its unchanged self in the old state, or -1
    std::vector<std::uint32_t> new_part{}; ///< by old part; `ray_miss` where it is gone
    std::vector<int> old_emitter{};        ///< by emitter: its unchanged self, or -1
    std::vector<Box3> changed{};           ///< old and new boxes of what changed
    std::atomic<std::size_t> traced{0};
    std::atomic<bool> stopped{false};
};

std::string name_of(const ScenePart& part, std::map<std::string, int>& seen) {
    const std::string name = part.owner + "/" + part.part;
    return name + "/" + std::to_string(seen[name]++);
}

std::shared_ptr<const BakeLayout> old_layout(const BakeState* old, const Mesh* mesh,
                                             double spacing_m) {
    if (old == nullptr) return nullptr;
    for (const BakePart& part : old->parts)
        if (part.layout->mesh.get() == mesh && part.layout->spacing_m == spacing_m)
            return part.layout;
    return nullptr;
}

void lay_out(Work& work) {
    std::map<std::string, int> seen;
    for (const ScenePart& part : work.world.scene.parts) {
        BakePart made;
        made.name = name_of(part, seen);
        made.material = part.material;
        made.mask = part.mask;
        const double spacing_m = spacing_of(part, work.options);
        made.layout = old_layout(work.old, part.mesh.get(), spacing_m);
        if (!made.layout) made.layout = layout_of(part.mesh, spacing_m);
        const Box3 box = box_of(*part.mesh);
        made.low_m = box.low_m;
        made.high_m = box.high_m;
        work.state.parts.push_back(std::move(made));
    }
}

/// Finds what stayed; the boxes of all else are in the way.
void compare(Work& work) {
    const std::vector<BakePart>& parts = work.state.parts;
    work.old_part.assign(parts.size(), -1);
    work.old_emitter.assign(work.state.emitters.size(), -1);
    if (work.old == nullptr) return;
    std::map<std::string, std::size_t> by_name;
    for (std::size_t o = 0; o < work.old->parts.size(); ++o) by_name[work.old->parts[o].name] = o;
    work.new_part.assign(work.old->parts.size(), ray_miss);
    for (std::size_t p = 0; p < parts.size(); ++p) {
        const auto found = by_name.find(parts[p].name);
        if (found != by_name.end()) {
            const BakePart& before = work.old->parts[found->second];
            if (before.layout == parts[p].layout && before.mask == parts[p].mask &&
                same(before.material, parts[p].material)) {
                work.old_part[p] = static_cast<int>(found->second);
                work.new_part[found->second] = static_cast<std::uint32_t>(p);
                continue;
            }
        }
        work.changed.push_back({parts[p].low_m, parts[p].high_m});
    }
    for (std::size_t o = 0; o < work.old->parts.size(); ++o)
        if (work.new_part[o] == ray_miss)
            work.changed.push_back({work.old->parts[o].low_m, work.old->parts[o].high_m});
    for (std::size_t e = 0; e < work.state.emitters.size(); ++e) {
        const auto& old = work.old->emitters;
        const auto found = std::find(old.begin(), old.end(), work.state.emitters[e]);
        if (found != old.end()) work.old_emitter[e] = static_cast<int>(found - old.begin());
    }
}

/// Second coordinate of Sobol's sequence, the first being the radical inverse (Kollig and Keller,
/// 2002): the first 2, 4, 8 … of them are spread as evenly as all.
double sobol(std::uint32_t i) {
    std::uint32_t bits = 0;
    for (std::uint32_t v = 1U << 31U; i != 0; i >>= 1U, v ^= v >> 1U)
        if ((i & 1U) != 0) bits ^= v;
    return static_cast<double>(bits) / 4294967296.0;
}

std::uint64_t seed_of(const BakePart& part, std::size_t point, int path) {
    return ContentKey().add(part.name).add(static_cast<std::uint64_t>(point)).add(path).value();
}

/// Which of a part's points stands for a place of it.
std::uint32_t point_for(const BakePart& part, const Hit& hit, bool through) {
    const BakeLayout& layout = *part.layout;
    if (!through) {
        const glm::uvec3& t = layout.mesh->triangles[hit.triangle];
        const double w = 1.0 - hit.u - hit.v;
        return layout.nearest[w >= hit.u && w >= hit.v ? t.x : hit.u >= hit.v ? t.y : t.z];
    }
    std::uint32_t best = 0;
    float least = std::numeric_limits<float>::max();
    for (std::uint32_t i = 0; i < layout.points.size(); ++i) {
        const float away =
            glm::length(layout.points[i].position_m - glm::vec3(hit.position_m)) +
            (glm::dot(layout.points[i].normal, glm::vec3(hit.normal)) > 0.5F ? 0.0F : 100.0F);
        if (away < least) {
            least = away;
            best = i;
        }
    }
    return best;
}

BakeLanding land(Work& work, const BakePart& part, std::size_t point, int path) {
    const BakePoint& from = part.layout->points[point];
    Random turns(seed_of(part, point, -1));
    const auto i = static_cast<std::uint32_t>(path);
    const Vec2 at(std::fmod(radical_inverse(i) + turns.unit(), 1.0),
                  std::fmod(sobol(i) + turns.unit(), 1.0));
    BakeLanding landing;
    landing.part = ray_miss;
    landing.distance_m = static_cast<float>(far_m);
    Hit hit;
    if (!next_hit(work.world, Vec3(from.position_m),
                  cosine_direction(Vec3(from.normal), at.x, at.y), hit))
        return landing;
    landing.distance_m = static_cast<float>(hit.distance_m);
    Random random(seed_of(part, point, path));
    const bool through = choose_side(hit, random);
    landing.part = hit.part;
    landing.point = point_for(work.state.parts[hit.part], hit, through);
    landing.position_m = glm::vec3(hit.position_m);
    landing.normal = glm::vec3(hit.normal);
    landing.albedo = glm::vec3(hit.albedo);
    landing.roughness = static_cast<float>(hit.roughness);
    landing.metal = hit.metal;
    return landing;
}

Hit as_hit(const BakeLanding& landing, const BakePoint& from) {
    Hit hit;
    hit.position_m = Vec3(landing.position_m);
    hit.normal = Vec3(landing.normal);
    hit.albedo = Vec3(landing.albedo);
    hit.roughness = static_cast<double>(landing.roughness);
    hit.metal = landing.metal;
    if (hit.metal) hit.to_eye = glm::normalize(Vec3(from.position_m) - hit.position_m);
    return hit;
}

/// One point's share of the work: its paths, and the shadow rays they ask for.
class PointTracer {
public:
    PointTracer(Work& work, std::size_t part, std::size_t point)
        : work_(work)
        , part_(work.state.parts[part])
        , from_(part_.layout->points[point])
        , point_(point)
        , emitters_(work.world.emitters.size()) {
        if (work.old_part[part] >= 0)
            before_ = &work.old->parts[static_cast<std::size_t>(work.old_part[part])];
    }

    void trace(int begin, int end) {
        for (int path = begin; path < end; ++path) {
            const std::size_t index = point_ * static_cast<std::size_t>(work_.options.paths) +
                                      static_cast<std::size_t>(path);
            BakeLanding& landing = part_.landings[index];
            const bool kept = keep(landing, index);
            if (!kept) {
                landing = land(work_, part_, point_, path);
                ++traced_;
            }
            if (landing.part != ray_miss) ask_lights(landing, index, path, kept);
        }
        settle();
    }

private:
    /// Takes over where a path landed before, unless something in its way changed.
    bool keep(BakeLanding& landing, std::size_t index) const {
        if (before_ == nullptr) return false;
        const BakeLanding& old = before_->landings[index];
        // A path out of the room may meet whatever changed.
        if (old.part == ray_miss ? !work_.changed.empty()
                                 : in_the_way(work_.changed, from_.position_m, old.position_m))
            return false;
        landing = old;
        if (old.part != ray_miss) landing.part = work_.new_part[old.part];
        return landing.part != ray_miss || old.part == ray_miss;
    }

    void ask_lights(const BakeLanding& landing, std::size_t index, int path, bool kept) {
        const Hit hit = as_hit(landing, from_);
        Random random(seed_of(part_, point_, path) ^ 0x5DEECE66DULL);
        for (std::size_t e = 0; e < emitters_; ++e) {
            const double u = random.unit(), v = random.unit();
            float& direct = part_.direct[index * emitters_ + e];
            const int old_e = work_.old_emitter[e];
            if (kept && old_e >= 0 && keep_direct(hit, e, u, v)) {
                direct = before_->direct[index * work_.old->emitters.size() +
                                         static_cast<std::size_t>(old_e)];
                continue;
            }
            const Offer offer = direct_offer(work_.world.emitters[e], hit, u, v);
            direct = static_cast<float>(offer.irradiance);
            if (offer.irradiance <= 0.0) continue;
            ways_.push_back({offer.from_m, offer.to_m});
            places_.push_back(&direct);
        }
    }

    bool keep_direct(const Hit& hit, std::size_t e, double u, double v) const {
        if (work_.changed.empty()) return true;
        const Vec3 light_m = emitter_point(work_.world.emitters[e], u, v).position_m;
        return !in_the_way(work_.changed, glm::vec3(hit.position_m), glm::vec3(light_m));
    }

    void settle() {
        std::vector<std::uint8_t> stopped(ways_.size(), 0);
        work_.world.rays.blocked_many(ways_, offer_blockers, stopped);
        for (std::size_t i = 0; i < ways_.size(); ++i)
            if (stopped[i] != 0) *places_[i] = 0.0F;
        work_.traced += traced_ + ways_.size();
    }

    Work& work_;
    BakePart& part_;
    const BakePoint& from_;
    std::size_t point_, emitters_, traced_ = 0;
    const BakePart* before_ = nullptr;
    std::vector<Segment> ways_;
    std::vector<float*> places_;
};

void trace(Work& work, int begin, int end) {
    for (std::size_t p = 0; p < work.state.parts.size() && !work.stopped; ++p) {
        const std::size_t points = work.state.parts[p].layout->points.size();
        tbb::parallel_for(std::size_t{0}, points, [&](std::size_t i) {
            if (work.stopped) return;
            if (work.options.stop && i % 64 == 0 && work.options.stop()) {
                work.stopped = true;
                return;
            }
            PointTracer(work, p, i).trace(begin, end);
        });
    }
}

using Values = std::vector<std::vector<glm::vec3>>; ///< by part: point-major, one an emitter

/// What every point gets of one more bounce, from what all points got of the last; of the first
/// bounce where `last` is null.
Values bounced(const Work& work, const Values* last, int paths) {
    const std::size_t emitters = work.world.emitters.size();
    Values next(work.state.parts.size());
    for (std::size_t p = 0; p < next.size(); ++p) {
        const BakePart& part = work.state.parts[p];
        next[p].assign(part.layout->points.size() * emitters, glm::vec3(0.0F));
        tbb::parallel_for(std::size_t{0}, part.layout->points.size(), [&](std::size_t i) {
            glm::vec3* sums = &next[p][i * emitters];
            for (int path = 0; path < paths; ++path) {
                const std::size_t index = i * static_cast<std::size_t>(work.options.paths) +
                                          static_cast<std::size_t>(path);
                const BakeLanding& landing = part.landings[index];
                if (landing.part == ray_miss) continue;
                for (std::size_t e = 0; e < emitters; ++e)
                    sums[e] +=
                        landing.albedo *
                        (last == nullptr ? glm::vec3(part.direct[index * emitters + e])
                                         : (*last)[landing.part][landing.point * emitters + e]);
            }
            for (std::size_t e = 0; e < emitters; ++e) sums[e] /= static_cast<float>(paths);
        });
    }
    return next;
}

/// Of a part's points: buried ones hardly count.
std::vector<float> weights_of(const Work& work, const BakePart& part, int paths) {
    std::vector<float> weights;
    for (std::size_t i = 0; i < part.layout->points.size(); ++i) {
        int near = 0;
        for (int path = 0; path < paths; ++path)
            if (part.landings[i * static_cast<std::size_t>(work.options.paths) +
                              static_cast<std::size_t>(path)]
                    .distance_m < buried_m)
                ++near;
        weights.push_back(near > paths * 6 / 10 ? 1e-4F : 1.0F);
    }
    return weights;
}

std::vector<glm::vec3> shared_out(const BakeLayout& layout, const std::vector<float>& weights,
                                  const std::vector<glm::vec3>& values, std::size_t emitters) {
    std::vector<glm::vec3> result(layout.shares.size() * emitters, glm::vec3(0.0F));
    tbb::parallel_for(std::size_t{0}, layout.shares.size(), [&](std::size_t v) {
        float all = 0.0F;
        for (const BakeShare& share : layout.shares[v]) all += share.share * weights[share.point];
        for (const BakeShare& share : layout.shares[v]) {
            const float part = share.share * weights[share.point] / all;
            for (std::size_t e = 0; e < emitters; ++e)
                result[v * emitters + e] += part * values[share.point * emitters + e];
        }
    });
    return result;
}

/// The light that the first `paths` of every point make.
IndirectLight light_of(const Work& work, int paths) {
    const std::size_t emitters = work.world.emitters.size();
    Values last = bounced(work, nullptr, paths);
    Values sum = last;
    for (int bounce = 1; bounce < work.options.bounces; ++bounce) {
        last = bounced(work, &last, paths);
        for (std::size_t p = 0; p < sum.size(); ++p)
            for (std::size_t i = 0; i < sum[p].size(); ++i) sum[p][i] += last[p][i];
    }
    IndirectLight light;
    light.emitters = emitters;
    for (std::size_t p = 0; p < sum.size(); ++p) {
        const BakePart& part = work.state.parts[p];
        light.parts.push_back(
            shared_out(*part.layout, weights_of(work, part, paths), sum[p], emitters));
    }
    return light;
}

bool usable(const BakeState* old, const BakeState& now) {
    return old != nullptr && old->paths == now.paths &&
           std::equal(std::begin(old->spacings_m), std::end(old->spacings_m),
                      std::begin(now.spacings_m));
}

} // namespace

IndirectLight bake_indirect(const Scene& scene, const RayScene& rays,
                            std::span<const Emitter> emitters, const BakeOptions& options,
                            BakeMemory* memory) {
    const World world = world_of(scene, rays, {emitters.begin(), emitters.end()});
    Work work{world, options};
    work.state.paths = options.paths;
    work.state.spacings_m[0] = options.subject_spacing_m;
    work.state.spacings_m[1] = options.gear_spacing_m;
    work.state.spacings_m[2] = options.room_spacing_m;
    for (const Emitter& emitter : emitters) work.state.emitters.push_back(key_of(emitter));
    if (memory != nullptr && usable(memory->state.get(), work.state))
        work.old = memory->state.get();
    IndirectLight stopped;
    stopped.emitters = emitters.size();
    stopped.parts.resize(scene.parts.size());
    if (emitters.empty() || (options.stop && options.stop())) return stopped;
    lay_out(work);
    compare(work);
    for (BakePart& part : work.state.parts) {
        const std::size_t landings =
            part.layout->points.size() * static_cast<std::size_t>(options.paths);
        part.landings.resize(landings);
        part.direct.assign(landings * emitters.size(), 0.0F);
    }
    int done = 0;
    if (work.old == nullptr && options.show && options.paths >= 2 * coarse_paths) {
        trace(work, 0, coarse_paths);
        if (work.stopped) return stopped;
        options.show(light_of(work, coarse_paths));
        done = coarse_paths;
    }
    trace(work, done, options.paths);
    if (work.stopped) return stopped;
    IndirectLight light = light_of(work, options.paths);
    light.complete = true;
    if (memory != nullptr) {
        memory->traced = work.traced;
        memory->state = std::make_shared<const BakeState>(std::move(work.state));
    }
    return light;
}

} // namespace keystead
