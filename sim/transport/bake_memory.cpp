#include "sim/transport/bake_memory.h"

#include "sim/shape/content_key.h"

#include <algorithm>
#include <map>

namespace keystead {

namespace {

double spacing_of(const ScenePart& part, const BakeOptions& options) {
    if ((part.mask & (ray_mask::subject | ray_mask::strands)) != 0)
        return options.subject_spacing_m;
    if ((part.mask & (ray_mask::room | ray_mask::background | ray_mask::panel)) != 0)
        return options.room_spacing_m;
    return options.gear_spacing_m;
}

std::string name_of(const ScenePart& part, std::map<std::string, int>& seen) {
    const std::string name = part.owner + "/" + part.part;
    return name + "/" + std::to_string(seen[name]++);
}

bool same(const Material& a, const Material& b) {
    return a.albedo == b.albedo && a.roughness == b.roughness && a.f0 == b.f0 &&
           a.metal == b.metal && a.finish == b.finish && a.transmission == b.transmission;
}

bool same(const BakePart& a, const BakePart& b) {
    return a.layout == b.layout && a.mask == b.mask && same(a.material, b.material);
}

} // namespace

std::shared_ptr<const BakeLayout> layout_of(const std::shared_ptr<const Mesh>& mesh,
                                            double spacing_m, const BakeState* old) {
    if (old != nullptr)
        for (const BakePart& part : old->parts)
            if (part.layout->mesh == mesh && part.layout->spacing_m == spacing_m)
                return part.layout;
    auto layout = std::make_shared<BakeLayout>();
    layout->mesh = mesh;
    layout->spacing_m = spacing_m;
    layout->points = spread_bake_points(*mesh, spacing_m);
    layout->shares = shares_of_vertices(*mesh, layout->points, spacing_m);
    for (std::size_t v = 0; v < layout->shares.vertices(); ++v) {
        const std::span<const BakeShare> shares = layout->shares.of(v);
        layout->nearest.push_back(std::max_element(shares.begin(), shares.end(),
                                                   [](const BakeShare& a, const BakeShare& b) {
                                                       return a.share < b.share;
                                                   })
                                      ->point);
    }
    return layout;
}

std::uint64_t geometry_key(const Emitter& e) {
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

void lay_out(const Scene& scene, const BakeOptions& options, const BakeState* old,
             BakeState& state) {
    std::map<std::string, int> seen;
    for (const ScenePart& part : scene.parts) {
        BakePart made;
        made.name = name_of(part, seen);
        made.material = part.material;
        made.mask = part.mask;
        made.box = box_of(*part.mesh);
        made.layout = layout_of(part.mesh, spacing_of(part, options), old);
        state.parts.push_back(std::move(made));
    }
}

Continuation continuation_of(const BakeState* old, const BakeState& state) {
    Continuation going;
    going.old = old;
    going.old_part.assign(state.parts.size(), -1);
    going.old_emitter.assign(state.emitters.size(), -1);
    if (old == nullptr) return going;
    going.new_part.assign(old->parts.size(), ray_miss);
    std::map<std::string, std::size_t> by_name;
    for (std::size_t o = 0; o < old->parts.size(); ++o) by_name[old->parts[o].name] = o;
    for (std::size_t p = 0; p < state.parts.size(); ++p) {
        const auto found = by_name.find(state.parts[p].name);
        if (found == by_name.end() || !same(old->parts[found->second], state.parts[p])) {
            going.changed.add(state.parts[p].box);
            continue;
        }
        going.old_part[p] = static_cast<int>(found->second);
        going.new_part[found->second] = static_cast<std::uint32_t>(p);
    }
    for (std::size_t o = 0; o < old->parts.size(); ++o)
        if (going.new_part[o] == ray_miss) going.changed.add(old->parts[o].box);
    for (std::size_t e = 0; e < state.emitters.size(); ++e) {
        const auto found = std::find(old->emitters.begin(), old->emitters.end(), state.emitters[e]);
        if (found != old->emitters.end())
            going.old_emitter[e] = static_cast<int>(found - old->emitters.begin());
    }
    return going;
}

} // namespace keystead
