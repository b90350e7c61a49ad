// Glasses: where the lenses stand before the eyes, and the frame that holds them.
#include "sim/shape/build/finish.h"
#include "sim/shape/build/sweep.h"
#include "sim/subject/field.h"
#include "sim/subject/lens.h"
#include "sim/subject/worn.h"

namespace keystead::worn {

namespace {

constexpr double vertex_distance_m = 13e-3; ///< cornea to lens: 12 to 14 mm, common practice
constexpr double below_pupil_m = 2e-3;      ///< the lens's middle
constexpr double rim_radius_m = 1.7e-3;
constexpr double clear_of_skin_m = 0.8e-3;
constexpr double most_forward_m = 9e-3; ///< how far a frame gives way to brows and cheeks
constexpr int outline_steps = 56;

Vec2 outline(const LensSurface& lens, double angle, double share = 1.0) {
    const double c = std::cos(angle), s = std::sin(angle);
    const double p = 2.0 / lens_outline_power;
    return {share * lens.half_width_m * std::copysign(std::pow(std::abs(c), p), c),
            share * lens.half_height_m * std::copysign(std::pow(std::abs(s), p), s)};
}

/// How far the pair has to move forward so that neither lens nor rim touches the face. The nose is
/// left out: it stands between the lenses and pads would hold them off it.
double forward_need_m(const SubjectForm& form, const LensSurface& lens) {
    const Mesh& skin = *form.skin;
    double need = 0.0;
    for (std::size_t i = 0; i < skin.positions_m.size(); ++i) {
        const Vec3 p(skin.positions_m[i]);
        if (p.z < 0.04 || skin.regions[i] == static_cast<std::uint8_t>(Region::nose)) continue;
        const Vec3 local = glm::transpose(lens.axes) * (p - lens.middle_m);
        if (!within_outline(lens, Vec2(local), rim_radius_m)) continue;
        const double surface = -0.5 * glm::dot(Vec2(local), Vec2(local)) / lens.radius_m;
        need = std::max(need, local.z - surface + rim_radius_m + clear_of_skin_m);
    }
    return std::min(need, most_forward_m);
}

LensSurface lens_at(const Glasses& glasses, double side, const Vec3& middle_m) {
    LensSurface lens;
    lens.middle_m = middle_m;
    lens.axes = upright_frame(direction_from({side * glasses.wrap_deg, -glasses.tilt_deg}));
    lens.radius_m = glasses.lens_radius_mm * 1e-3;
    // A lens wider than its sphere would have no surface at its edge.
    const double most = 0.65 * lens.radius_m;
    lens.half_width_m = std::min(0.5e-3 * glasses.lens_width_mm, most);
    lens.half_height_m = std::min(0.5e-3 * glasses.lens_height_mm, most);
    lens.sphere_centre_m = middle_m - lens.axes[2] * lens.radius_m;
    return lens;
}

Vec3 rim_point(const LensSurface& lens, double angle, double share = 1.0) {
    const Vec2 at = outline(lens, angle, share);
    return on_lens(lens, at.x, at.y);
}

std::vector<Vec3> rim_path(const LensSurface& lens, int steps) {
    std::vector<Vec3> path;
    for (int i = 0; i <= steps; ++i) path.push_back(rim_point(lens, 2.0 * pi * i / steps));
    return path;
}

/// The skin's outermost point beside a temple's place, ears left out.
double skin_beside_m(const Mesh& skin, double side, double y_m, double z_m) {
    double x = 0.0;
    for (std::size_t i = 0; i < skin.positions_m.size(); ++i) {
        const glm::vec3& p = skin.positions_m[i];
        if (std::abs(p.y - y_m) > 7e-3 || std::abs(p.z - z_m) > 7e-3) continue;
        if (skin.regions[i] != static_cast<std::uint8_t>(Region::ear))
            x = std::max(x, side * double(p.x));
    }
    return x;
}

/// From the rim's outer edge back along the side of the head, over the ear and down behind it.
Mesh temple(const SubjectForm& form, const LensSurface& lens, double side, int steps) {
    const double outer = side > 0.0 ? 0.0 : pi;
    const Vec3 hinge = rim_point(lens, outer + side * 0.5, 1.04) - lens.axes[2] * 1.5e-3;
    const Vec3 tragion = side > 0.0 ? form.landmarks.tragion_left : form.landmarks.tragion_right;
    const Vec3 over_ear(side * (std::abs(tragion.x) + 2e-3), 0.024, -0.012);
    std::vector<Vec3> points{hinge, hinge + Vec3(side * 4e-3, 0.0, -3e-3)};
    const Vec3 start = points.back();
    double widest = std::abs(start.x);
    for (int i = 1; i <= 5; ++i) {
        Vec3 p = glm::mix(start, over_ear, i / 5.0);
        widest = std::max(
            {std::abs(p.x), skin_beside_m(*form.skin, side, p.y, p.z) + 2.2e-3, widest - 1e-3});
        p.x = side * widest;
        points.push_back(p);
    }
    const Vec3 last = points.back();
    points.push_back(last + Vec3(-side * 1e-3, -8e-3, -14e-3));
    points.push_back(last + Vec3(-side * 4e-3, -30e-3, -22e-3));
    return build::finished(
        build::strap(build::smooth_path(points, steps), Vec3(0, 1, 0.35), 4.6e-3, 2.4e-3), 35.0);
}

Mesh bridge(const SubjectForm& form, const std::array<LensSurface, 2>& lenses) {
    // A little above the lens's middle on both noseward edges.
    const Vec3 left = rim_point(lenses[0], pi - 0.35), right = rim_point(lenses[1], 0.35);
    const double nose = form.landmarks.sellion.z + rim_radius_m + clear_of_skin_m;
    Vec3 middle = 0.5 * (left + right) + Vec3(0, 3e-3, 2e-3);
    middle.x = 0.0;
    middle.z = std::max(middle.z, nose);
    return build::finished(build::rod(build::smooth_path({left, middle, right}, 6), 1.6e-3, 8),
                           60.0);
}

void add_sheet(Mesh& mesh, const LensSurface& lens) {
    const std::array<double, 6> shares{0.17, 0.35, 0.54, 0.72, 0.88, 1.0};
    const auto add = [&](const Vec3& p) {
        mesh.positions_m.emplace_back(p);
        mesh.normals.emplace_back(glm::normalize(p - lens.sphere_centre_m));
        return static_cast<glm::uint>(mesh.positions_m.size() - 1);
    };
    const glm::uint middle = add(lens.middle_m);
    const auto at = [&](std::size_t ring, int i) {
        return middle + 1 +
               static_cast<glm::uint>(ring * outline_steps +
                                      static_cast<std::size_t>(i % outline_steps));
    };
    for (const double share : shares)
        for (int i = 0; i < outline_steps; ++i)
            add(rim_point(lens, 2.0 * pi * i / outline_steps, share));
    for (int i = 0; i < outline_steps; ++i) {
        mesh.triangles.emplace_back(middle, at(0, i), at(0, i + 1));
        for (std::size_t ring = 0; ring + 1 < shares.size(); ++ring) {
            mesh.triangles.emplace_back(at(ring, i), at(ring + 1, i), at(ring + 1, i + 1));
            mesh.triangles.emplace_back(at(ring, i), at(ring + 1, i + 1), at(ring, i + 1));
        }
    }
}

} // namespace

Vec3 on_lens(const LensSurface& lens, double x_m, double y_m) {
    const double r2 = x_m * x_m + y_m * y_m;
    const double depth = std::sqrt(std::max(lens.radius_m * lens.radius_m - r2, 0.0));
    return lens.sphere_centre_m + lens.axes * Vec3(x_m, y_m, depth);
}

std::array<LensSurface, 2> lenses_of(const SubjectForm& form, const Glasses& glasses) {
    const Landmarks& l = form.landmarks;
    const double apart = 0.5e-3 * (glasses.lens_width_mm + glasses.bridge_mm);
    const Vec3 pupils = 0.5 * (l.pupil_left + l.pupil_right);
    Vec3 left(apart, pupils.y - below_pupil_m, pupils.z + vertex_distance_m);
    left.z += std::max(forward_need_m(form, lens_at(glasses, 1.0, left)), 0.0);
    const Vec3 right(-left.x, left.y, left.z);
    return {lens_at(glasses, 1.0, left), lens_at(glasses, -1.0, right)};
}

Mesh lens_mesh(const std::array<LensSurface, 2>& lenses) {
    Mesh mesh;
    for (const LensSurface& lens : lenses) add_sheet(mesh, lens);
    mesh.regions.assign(mesh.positions_m.size(), static_cast<std::uint8_t>(Region::glasses));
    return mesh;
}

Mesh frame_mesh(const SubjectForm& form, const std::array<LensSurface, 2>& lenses, Detail detail) {
    const bool fine = detail == Detail::fine;
    Mesh mesh = bridge(form, lenses);
    for (std::size_t i = 0; i < lenses.size(); ++i) {
        const std::vector<Vec3> rim = rim_path(lenses[i], fine ? outline_steps : 24);
        append(mesh, build::finished(build::rod(rim, rim_radius_m, fine ? 8 : 4), 60.0));
        append(mesh, temple(form, lenses[i], i == 0 ? 1.0 : -1.0, fine ? 4 : 1));
    }
    mesh = build::tinted(std::move(mesh), glm::vec3(1.0F), 0.3F);
    mesh.regions.assign(mesh.positions_m.size(), static_cast<std::uint8_t>(Region::glasses));
    return mesh;
}

} // namespace keystead::worn
