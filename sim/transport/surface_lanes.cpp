#include "sim/transport/surface_lanes.h"

#include "sim/transport/noise_lanes.h"

#include <algorithm>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

using lanes::F16;
using lanes::I16;
using lanes::M16;
using lanes::V16;
using reflection_lanes::Surface;

using Four [[gnu::vector_size(16)]] = float;

/// Columns of CornerRecord.
enum Column { edge_1, edge_2 = 4, smooth = 8, albedo = 11, rough = 14, columns = 16 };

CornerRecord corner_of(const Mesh& mesh, const Material& material, std::size_t vertex) {
    const glm::vec3 p = mesh.positions_m[vertex];
    const glm::vec3 n = mesh.normals.empty() ? glm::vec3(0.0F) : mesh.normals[vertex];
    const glm::vec3 c = mesh.colours.empty() ? material.albedo : mesh.colours[vertex];
    const float r = mesh.roughness.empty() ? material.roughness : mesh.roughness[vertex];
    return {{p.x, p.y, p.z, 0.0F, p.x, p.y, p.z, 0.0F, n.x, n.y, n.z, c.x, c.y, c.z, r, 0.0F}};
}

std::shared_ptr<const std::vector<CornerRecord>> corners_of(const Mesh& mesh,
                                                            const Material& material) {
    auto corners = std::make_shared<std::vector<CornerRecord>>(mesh.positions_m.size());
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, corners->size(), 4096),
                      [&](const tbb::blocked_range<std::size_t>& range) {
                          for (std::size_t i = range.begin(); i < range.end(); ++i)
                              (*corners)[i] = corner_of(mesh, material, i);
                      });
    return corners;
}

bool same_defaults(const Material& a, const Material& b) {
    return a.albedo == b.albedo && a.roughness == b.roughness;
}

/// What a lane's corners add up to: two edges of the triangle, and the rest in between.
KEYSTEAD_INLINE void put_between(const SurfacePart& part, std::uint32_t triangle, float u, float v,
                                 float (&row)[columns]) {
    const glm::uvec3 corner = part.mesh->triangles[triangle];
    const CornerRecord* records = part.corners->data();
    const float* c0 = records[corner.x].values;
    const float* c1 = records[corner.y].values;
    const float* c2 = records[corner.z].values;
    const float w = 1.0F - u - v;
    for (int i = 0; i < 4; ++i) {
        row[i] = c1[i] - c0[i];
        row[4 + i] = c2[i] - c0[i];
    }
    for (int i = 8; i < 16; ++i) row[i] = w * c0[i] + u * c1[i] + v * c2[i];
}

/// Rows of lanes to lanes of columns, four by four.
KEYSTEAD_INLINE void transpose(const float (&rows)[16][columns], float (&out)[columns][16]) {
    for (std::size_t lane = 0; lane < 16; lane += 4)
        for (std::size_t column = 0; column < columns; column += 4) {
            Four a, b, c, d;
            __builtin_memcpy(&a, &rows[lane][column], sizeof a);
            __builtin_memcpy(&b, &rows[lane + 1][column], sizeof b);
            __builtin_memcpy(&c, &rows[lane + 2][column], sizeof c);
            __builtin_memcpy(&d, &rows[lane + 3][column], sizeof d);
            const Four ab_low = __builtin_shufflevector(a, b, 0, 4, 1, 5);
            const Four ab_high = __builtin_shufflevector(a, b, 2, 6, 3, 7);
            const Four cd_low = __builtin_shufflevector(c, d, 0, 4, 1, 5);
            const Four cd_high = __builtin_shufflevector(c, d, 2, 6, 3, 7);
            const Four first = __builtin_shufflevector(ab_low, cd_low, 0, 1, 4, 5);
            const Four second = __builtin_shufflevector(ab_low, cd_low, 2, 3, 6, 7);
            const Four third = __builtin_shufflevector(ab_high, cd_high, 0, 1, 4, 5);
            const Four fourth = __builtin_shufflevector(ab_high, cd_high, 2, 3, 6, 7);
            __builtin_memcpy(&out[column][lane], &first, sizeof first);
            __builtin_memcpy(&out[column + 1][lane], &second, sizeof second);
            __builtin_memcpy(&out[column + 2][lane], &third, sizeof third);
            __builtin_memcpy(&out[column + 3][lane], &fourth, sizeof fourth);
        }
}

KEYSTEAD_INLINE V16 column_vector(const float (&table)[columns][16], int first) {
    return {lanes::load(table[first]), lanes::load(table[first + 1]),
            lanes::load(table[first + 2])};
}

/// A triangle that all lanes share needs no gathering.
KEYSTEAD_INLINE void interpolate_one(const SurfacePart& part, const HitPacket& hits,
                                     float (&table)[columns][16]) {
    const glm::uvec3 corner = part.mesh->triangles[hits.triangle[0]];
    const CornerRecord* records = part.corners->data();
    const float* c0 = records[corner.x].values;
    const float* c1 = records[corner.y].values;
    const float* c2 = records[corner.z].values;
    const F16 w = F16(1.0F) - hits.u - hits.v;
    for (int i = 0; i < 3; ++i) {
        lanes::store(table[edge_1 + i], F16(c1[i] - c0[i]));
        lanes::store(table[edge_2 + i], F16(c2[i] - c0[i]));
    }
    for (int i = smooth; i < rough + 1; ++i)
        lanes::store(table[i], w * c0[i] + hits.u * c1[i] + hits.v * c2[i]);
}

/// Materials and tangents of hair, lane by lane where parts differ.
KEYSTEAD_INLINE void set_material(Surface& s, std::size_t lane, const SurfacePart& part) {
    s.f0.set(lane, part.material.f0);
    s.metal.set(lane, part.material.metal);
    s.finish.set(lane, static_cast<int>(part.material.finish));
    s.emitting_light.set(lane, part.emitting_light);
}

KEYSTEAD_INLINE void set_materials(Surface& s, const SurfacePart& part) {
    s.f0 = part.material.f0;
    s.metal = M16(part.material.metal);
    s.finish = static_cast<int>(part.material.finish);
    s.emitting_light = part.emitting_light;
}

KEYSTEAD_INLINE void set_tangent(Surface& s, std::size_t lane, const SurfacePart& part,
                                 const HitPacket& hits) {
    if (part.mesh->tangents.empty()) return;
    const glm::uvec3 corner = part.mesh->triangles[hits.triangle[lane]];
    const float u = hits.u[lane], v = hits.v[lane];
    s.tangent.set(lane, (1.0F - u - v) * part.mesh->tangents[corner.x] +
                            u * part.mesh->tangents[corner.y] + v * part.mesh->tangents[corner.z]);
}

/// Lanes that face away from the rays' origins are turned.
KEYSTEAD_INLINE V16 facing(const V16& normal, const V16& against) {
    return choose(dot(normal, against) > F16(0.0F), -normal, normal);
}

KEYSTEAD_INLINE void set_normals(Surface& s, const V16& across, const V16& smooth_normal,
                                 const V16& direction, const M16& hair) {
    s.geometric = facing(normalize(across), direction);
    const M16 has_smooth = dot(smooth_normal, smooth_normal) > F16(0.25F);
    const V16 unit = normalize(choose(has_smooth, smooth_normal, s.geometric));
    // A strand's band says nothing about which way the hair there faces.
    const M16 whole_hair = hair && has_smooth;
    s.normal = choose(whole_hair, unit, facing(unit, -s.geometric));
    s.geometric = choose(whole_hair, unit, s.geometric);
}

KEYSTEAD_INLINE void vary(Surface& s, const F16& footprint_m) {
    V16 tint(F16(1.0F));
    F16 rough_share(1.0F);
    for (const int finish : {noise_lanes::finish_skin, noise_lanes::finish_cloth,
                             noise_lanes::finish_paper, noise_lanes::finish_floor}) {
        const M16 here = s.finish == I16(finish);
        if (!any(here)) continue;
        const noise_lanes::Real2 variation =
            noise_lanes::surface_variation(finish, s.position, footprint_m);
        tint = choose(here, V16(F16(1.0F) + variation.x), tint);
        rough_share = choose(here, F16(1.0F) + variation.y, rough_share);
    }
    s.albedo = s.albedo * tint;
    s.roughness = clamp(s.roughness * rough_share, 0.02F, 1.0F);
}

KEYSTEAD_INLINE void vary_hair(Surface& s, const M16& hair, const F16& footprint_m) {
    const M16 grained = hair && dot(s.tangent, s.tangent) > F16(0.25F);
    if (!any(grained)) {
        s.tangent = V16(F16(0.0F));
        return;
    }
    V16 tangent = normalize(choose(grained, s.tangent, V16(1.0F, 0.0F, 0.0F)));
    const F16 tone =
        choose(grained, noise_lanes::hair_tone(s.position, tangent, footprint_m), F16(0.0F));
    s.albedo = s.albedo * (F16(1.0F) + tone);
    // Locks stand out of the surface: their own tilt breaks the highlight up.
    tangent = normalize(tangent + s.normal * (F16(0.22F) * tone));
    const V16 tilted = normalize(s.normal + cross(tangent, s.normal) * (F16(0.25F) * tone));
    s.normal = choose(grained, tilted, s.normal);
    s.tangent = choose(grained, tangent, V16(F16(0.0F)));
}

struct Corners {
    alignas(64) float rows[16][columns];
    alignas(64) float table[columns][16];
};

/// Fills the table of columns, the materials and the tangents.
KEYSTEAD_INLINE void look_up(const SurfaceTable& table, const HitPacket& hits, Surface& s,
                             Corners& corners) {
    const std::uint32_t first = hits.mesh[0];
    s.tangent = V16(F16(0.0F));
    const bool one_part = all(hits.mesh == lanes::U16(first)) && first != ray_miss;
    if (one_part) {
        const SurfacePart& part = table.parts[first];
        set_materials(s, part);
        if (part.material.finish == Finish::hair)
            for (std::size_t i = 0; i < lanes::lane_count; ++i) set_tangent(s, i, part, hits);
        if (all(hits.triangle == lanes::U16(hits.triangle[0]))) {
            interpolate_one(part, hits, corners.table);
            return;
        }
        for (std::size_t i = 0; i < lanes::lane_count; ++i)
            put_between(part, hits.triangle[i], hits.u[i], hits.v[i], corners.rows[i]);
    } else {
        static const SurfacePart nothing{nullptr, {glm::vec3(0.0F), 1.0F, 0.0F}, -1, nullptr};
        for (std::size_t i = 0; i < lanes::lane_count; ++i) {
            const bool met = hits.mesh[i] != ray_miss;
            const SurfacePart& part = met ? table.parts[hits.mesh[i]] : nothing;
            set_material(s, i, part);
            if (met) {
                put_between(part, hits.triangle[i], hits.u[i], hits.v[i], corners.rows[i]);
                if (part.material.finish == Finish::hair) set_tangent(s, i, part, hits);
            } else {
                for (float& value : corners.rows[i]) value = 0.0F;
                corners.rows[i][edge_1] = corners.rows[i][edge_2 + 1] = 1.0F;
            }
        }
    }
    transpose(corners.rows, corners.table);
}

} // namespace

std::shared_ptr<const SurfaceTable> make_surface_table(const Scene& scene,
                                                       const SurfaceTable* previous) {
    auto table = std::make_shared<SurfaceTable>();
    table->parts.reserve(scene.parts.size());
    std::size_t next = 0; // both lists run in about one order
    for (const ScenePart& part : scene.parts) {
        SurfacePart made{part.mesh, part.material, part.emitting_light, nullptr};
        if (part.mesh == nullptr || part.mesh->triangles.empty()) {
            made.mesh = nullptr;
            table->parts.push_back(std::move(made));
            continue;
        }
        for (std::size_t k = 0; previous != nullptr && k < previous->parts.size(); ++k) {
            const SurfacePart& old = previous->parts[(next + k) % previous->parts.size()];
            if (old.mesh != part.mesh || !same_defaults(old.material, part.material)) continue;
            made.corners = old.corners;
            next = (next + k + 1) % previous->parts.size();
            break;
        }
        if (made.corners == nullptr) made.corners = corners_of(*part.mesh, part.material);
        table->parts.push_back(std::move(made));
    }
    return table;
}

KEYSTEAD_SIMD void surfaces_at(const SurfaceTable& table, const RayPacket& rays,
                               const HitPacket& hits, const lanes::F16& footprint_m,
                               reflection_lanes::Surface& surfaces) {
    Surface& s = surfaces;
    Corners corners;
    look_up(table, hits, s, corners);
    const M16 met = hits.mesh != lanes::U16(ray_miss);
    const F16 distance = choose(met, hits.distance, F16(0.0F));
    s.position = rays.origin_m + rays.direction * distance;
    s.albedo = column_vector(corners.table, albedo);
    s.roughness = lanes::load(corners.table[rough]);
    const M16 hair = s.finish == I16(static_cast<int>(Finish::hair));
    set_normals(s,
                cross(column_vector(corners.table, edge_1), column_vector(corners.table, edge_2)),
                column_vector(corners.table, smooth), rays.direction, hair);
    vary(s, footprint_m);
    if (any(hair)) vary_hair(s, hair, footprint_m);
}

} // namespace keystead
