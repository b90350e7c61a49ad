#include "sim/transport/seen.h"

#include "sim/transport/lens_sight.h"
#include "sim/transport/seen_lanes.h"

#include <tbb/parallel_for.h>

namespace keystead {

namespace {

using namespace seen_lanes;

constexpr float near_m = 0.05F, far_m = 80.0F; ///< depths, as the OpenGL renderer's
constexpr std::uint32_t visible = ray_mask::visible;
constexpr float leave_m = 1e-4F; ///< off the lens that mirrors
/// What lenses mirror is not looked at closely: no unevenness.
constexpr float unvaried_m = 1e6F;

struct SeeJob {
    const Studio* studio;
    const View* view;
    SeenPicture::Data* picture;
    PixelBox lenses;
};

/// Facts that choose which kernels look at a block.
KEYSTEAD_INLINE BlockFacts facts_of(const reflection_lanes::Surface& s, const HitPacket& hits) {
    BlockFacts facts;
    const M16 met = hits.mesh != U16(ray_miss);
    facts.sees = any(met);
    if (!facts.sees) return facts;
    facts.one_part = all(hits.mesh == U16(hits.mesh[0]));
    facts.shining = any(met && s.emitting_light >= I16(0));
    facts.eyes = any(met && s.finish == I16(static_cast<int>(Finish::eye)));
    return facts;
}

KEYSTEAD_INLINE void keep_tangents(SeenRow& row, BlockFacts& facts,
                                   const reflection_lanes::Surface& s) {
    const M16 grained = dot(s.tangent, s.tangent) > F16(0.25F);
    if (!any(grained)) return;
    facts.tangents = static_cast<int>(row.tangents.size());
    row.tangents.emplace_back();
    store_bits(
        row.tangents.back().tangent,
        choose(grained, octahedral(choose(grained, s.tangent, V16(1.0F, 0.0F, 0.0F))), U16(0U)));
}

KEYSTEAD_SIMD void see_row(const SeeJob& job, int row) {
    SeenPicture::Data& picture = *job.picture;
    const RayScene& rays = *job.studio->rays;
    RayPacket packet;
    packet.origin_m = V16(picture.lines.eye);
    packet.start = near_m;
    packet.end = far_m;
    packet.active = M16(true);
    HitPacket hits;
    reflection_lanes::Surface s;
    const int across = picture.size.blocks_across();
    for (int column = 0; column < across; ++column) {
        const auto index = static_cast<std::size_t>(row * across + column);
        packet.direction = block_lines(picture.lines, column, row);
        rays.first_hits(packet, visible, RayOrder::coherent, hits);
        if (!any(hits.mesh != U16(ray_miss))) {
            picture.facts[index] = {};
            continue;
        }
        const F16 footprint =
            max(hits.distance * length(packet.direction) * picture.lines.pixel_slope, 1e-7F);
        surfaces_at(*picture.table, packet, hits, footprint, s);
        picture.facts[index] = facts_of(s, hits);
        pack(picture.blocks[index], s, hits.distance, hits);
        pack_place(picture.places[index], hits);
        keep_tangents(picture.rows[static_cast<std::size_t>(row)], picture.facts[index], s);
    }
}

/// Rays that go on from lenses, and from eyes, which mirror less.
struct Onward {
    RayPacket packet;
    M16 from_lens;
    std::uint32_t in_eyes = 0; ///< what these mirror
};

KEYSTEAD_INLINE HitPacket onward_hits(const RayScene& rays, const Onward& onward) {
    RayPacket packet = onward.packet;
    HitPacket lens, eye;
    packet.active = onward.packet.active && onward.from_lens;
    rays.first_hits(packet, visible, RayOrder::incoherent, lens);
    packet.active = onward.packet.active && !onward.from_lens;
    if (!any(packet.active)) return lens;
    rays.first_hits(packet, onward.in_eyes, RayOrder::incoherent, eye);
    lens.mesh = choose(onward.from_lens, lens.mesh, eye.mesh);
    lens.triangle = choose(onward.from_lens, lens.triangle, eye.triangle);
    lens.distance = choose(onward.from_lens, lens.distance, eye.distance);
    lens.u = choose(onward.from_lens, lens.u, eye.u);
    lens.v = choose(onward.from_lens, lens.v, eye.v);
    return lens;
}

KEYSTEAD_SIMD void keep_mirrored(const SeeJob& job, const Onward& onward, LensBlock& lens) {
    const RayPacket& packet = onward.packet;
    const HitPacket hits = onward_hits(*job.studio->rays, onward);
    reflection_lanes::Surface s;
    surfaces_at(*job.picture->table, packet, hits, F16(unvaried_m), s);
    pack(lens.mirrored, s, hits.distance, hits);
    pack_place(lens.place, hits);
    lanes::store(lens.x.data(), s.position.x);
    lanes::store(lens.y.data(), s.position.y);
    lanes::store(lens.z.data(), s.position.z);
}

/// The lenses in front of one block, and the eyes in it.
void see_lenses_of_block(const SeeJob& job, int column, int row) {
    SeenPicture::Data& picture = *job.picture;
    const V16 lines = block_lines(picture.lines, column, row);
    LensBlock lens{};
    Onward onward{
        {V16(F16(0.0F)), V16(0.0F, 0.0F, 1.0F), leave_m, far_m, M16(false)}, M16(false), 0};
    RayPacket& packet = onward.packet;
    for (std::size_t i = 0; i < block_lanes; ++i) {
        const Vec3 line = glm::normalize(Vec3(lines[i]));
        const std::optional<LensGlance> glance = glance_at_lens(*job.studio, *job.view, line);
        if (!glance) continue;
        lens.share[i] = static_cast<float>(glance->share);
        const glm::vec3 place(glance->place_m);
        lens.from_x[i] = place.x;
        lens.from_y[i] = place.y;
        lens.from_z[i] = place.z;
        packet.origin_m.set(i, place);
        packet.direction.set(i, glm::vec3(glance->onward));
        packet.active.set(i, true);
        onward.from_lens.set(i, glance->share > 0.0);
        if (glance->share < 0.0) onward.in_eyes = glance->mask;
    }
    if (!any(packet.active)) return;
    keep_mirrored(job, onward, lens);
    SeenRow& lists = picture.rows[static_cast<std::size_t>(row)];
    const int across = picture.size.blocks_across();
    picture.facts[static_cast<std::size_t>(row * across + column)].lens =
        static_cast<int>(lists.lenses.size());
    lists.lenses.push_back(lens);
}

void see_lens_row(const SeeJob& job, int row) {
    // The box counts from the bottom.
    const int top = job.picture->size.height_px - job.lenses.bottom - job.lenses.height;
    const int bottom = job.picture->size.height_px - job.lenses.bottom;
    if (job.lenses.count() == 0 || row * block_px >= bottom || (row + 1) * block_px <= top) return;
    const int first = job.lenses.left / block_px;
    const int last = (job.lenses.left + job.lenses.width - 1) / block_px;
    const bool lenses = wears_lenses(*job.studio);
    for (int column = first; column <= last; ++column) {
        const int across = job.picture->size.blocks_across();
        if (lenses || job.picture->facts[static_cast<std::size_t>(row * across + column)].eyes)
            see_lenses_of_block(job, column, row);
    }
}

std::size_t index_of(const SeenPicture::Data& picture, int x_px, int y_px) {
    return static_cast<std::size_t>(y_px / block_px * picture.size.blocks_across() +
                                    x_px / block_px);
}

std::size_t lane_of(int x_px, int y_px) {
    return static_cast<std::size_t>(y_px % block_px * block_px + x_px % block_px);
}

} // namespace

SightLines sight_lines(const View& view, PictureSize size, glm::vec2 offset_px) {
    const Vec3 right = view.axes[0] * (2.0 * view.tan_half_width / std::max(1, size.width_px));
    const Vec3 down = -view.axes[1] * (2.0 * view.tan_half_height / std::max(1, size.height_px));
    // Pixel 0, 0: its middle lies half a pixel inside the corner; the offset moves the picture.
    const Vec3 corner = sight_line(view, Vec2(-1.0, 1.0)) +
                        right * (0.5 - static_cast<double>(offset_px.x)) +
                        down * (0.5 + static_cast<double>(offset_px.y));
    return {glm::vec3(view.eye_m), glm::vec3(corner), glm::vec3(right), glm::vec3(down),
            static_cast<float>(2.0 * view.tan_half_height / std::max(1, size.height_px))};
}

SeenPicture::SeenPicture(std::unique_ptr<Data> data)
    : data_(std::move(data)) {}
SeenPicture::~SeenPicture() = default;

PictureSize SeenPicture::size() const {
    return data_->size;
}

std::size_t SeenPicture::bytes() const {
    std::size_t sum =
        data_->size.blocks() * (sizeof(SeenBlock) + sizeof(SeenPlace) + sizeof(BlockFacts));
    for (const SeenRow& row : data_->rows)
        sum += row.tangents.capacity() * sizeof(TangentBlock) +
               row.lenses.capacity() * sizeof(LensBlock);
    return sum;
}

std::shared_ptr<SeenPicture> see_picture(const Studio& studio, const View& view, PictureSize size,
                                         glm::vec2 offset_px, const SeenPicture* reuse) {
    auto picture = std::make_unique<SeenPicture::Data>();
    picture->size = size;
    picture->lines = sight_lines(view, size, offset_px);
    picture->table =
        make_surface_table(studio.scene, reuse != nullptr ? reuse->data().table.get() : nullptr);
    const std::size_t count = size.blocks();
    picture->blocks = std::make_unique_for_overwrite<SeenBlock[]>(count);
    picture->places = std::make_unique_for_overwrite<SeenPlace[]>(count);
    picture->facts.resize(count);
    picture->rows.resize(static_cast<std::size_t>(size.blocks_down()));
    SeeJob job{&studio, &view, picture.get(), {}};
    job.lenses = lens_box(studio, view, size.width_px, size.height_px);
    tbb::parallel_for(0, size.blocks_down(), [&](int row) {
        see_row(job, row);
        see_lens_row(job, row);
    });
    return std::make_shared<SeenPicture>(std::move(picture));
}

int seen_part(const SeenPicture& picture, int x_px, int y_px) {
    const std::size_t index = index_of(picture.data(), x_px, y_px);
    if (!picture.data().facts[index].sees) return -1;
    const std::uint16_t part = picture.data().blocks[index].part[lane_of(x_px, y_px)];
    return part == no_part ? -1 : part;
}

glm::vec4 seen_position(const SeenPicture& picture, int x_px, int y_px) {
    const int part = seen_part(picture, x_px, y_px);
    if (part < 0) return glm::vec4(0.0F);
    const SightLines& lines = picture.data().lines;
    const glm::vec3 line = lines.corner + static_cast<float>(x_px) * lines.right +
                           static_cast<float>(y_px) * lines.down;
    const std::size_t index = index_of(picture.data(), x_px, y_px);
    const float depth = picture.data().blocks[index].distance[lane_of(x_px, y_px)];
    return {lines.eye + depth * line, static_cast<float>(part + 1)};
}

} // namespace keystead
