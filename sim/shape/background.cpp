// Seamless paper on its roll or a cloth on a bar, held by two stands.

#include "sim/shape/build/finish.h"
#include "sim/shape/build/sheet.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/content_key.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"
#include "sim/shape/part_list.h"
#include "sim/transport/ray_scene.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

constexpr double cove_radius_m = 0.48;
constexpr double sheet_thickness_m = 0.0012;
constexpr double sheet_lift_m = 0.0020; ///< face of the sheet above the floor it lies on
constexpr double curl_m = 0.022;        ///< the cut edge remembers the roll
constexpr double curl_length_m = 0.30;
constexpr double roll_radius_m = 0.055;
constexpr double hem_m = 0.03; ///< a hanging sheet ends this far above the floor
constexpr double fold_depth_m = 0.020;
constexpr double fold_rad_per_m = 14.0;
constexpr double stand_beside_m = 0.16;

/// The sheet's side view: a point and its face's normal, in (toward the camera, up) from the plane
/// at the floor.
struct ProfilePoint {
    Vec2 place, normal;
};

/// Down the plane, round the cove, forward on the floor to the curled edge.
class Profile {
public:
    explicit Profile(const Background& background)
        : height_m_(background.height_m)
        , sweep_m_(background.sweep_m)
        , radius_m_(std::min({cove_radius_m, background.sweep_m, background.height_m})) {}

    /// Distances from the top at which the sheet is divided: closely in the cove and at the edge.
    std::vector<double> stations(double cell_m) const {
        std::vector<double> result;
        const auto divide = [&](double from, double to, double step) {
            const int count = build::cells(to - from, step);
            for (int i = 0; i < count; ++i) result.push_back(from + (to - from) * i / count);
        };
        if (sweep_m_ <= 0.0) {
            divide(0.0, height_m_ - hem_m, cell_m);
        } else {
            divide(0.0, hanging_m(), cell_m);
            divide(hanging_m(), hanging_m() + arc_m(), arc_m() / 16.0);
            const double curl_from = std::max(hanging_m() + arc_m(), length_m() - curl_length_m);
            if (curl_from > hanging_m() + arc_m()) divide(hanging_m() + arc_m(), curl_from, cell_m);
            if (length_m() > curl_from) divide(curl_from, length_m(), curl_length_m / 6.0);
        }
        result.push_back(length_m());
        return result;
    }

    ProfilePoint at(double along_m) const {
        if (along_m <= hanging_m() || sweep_m_ <= 0.0)
            return {{0.0, height_m_ - along_m}, {1.0, 0.0}};
        const double past = along_m - hanging_m();
        if (past < arc_m()) {
            const double angle = past / radius_m_;
            return {{radius_m_ * (1.0 - std::cos(angle)),
                     sheet_lift_m + (radius_m_ - sheet_lift_m) * (1.0 - std::sin(angle))},
                    {std::cos(angle), std::sin(angle)}};
        }
        const double forward = radius_m_ + past - arc_m();
        const double curl = std::max(0.0, 1.0 - (length_m() - along_m) / curl_length_m);
        const double slope = 2.0 * curl_m * curl / curl_length_m;
        return {{forward, sheet_lift_m + curl_m * curl * curl}, glm::normalize(Vec2(-slope, 1.0))};
    }

    double length_m() const {
        if (sweep_m_ <= 0.0) return height_m_ - hem_m;
        return hanging_m() + arc_m() + sweep_m_ - radius_m_;
    }

private:
    double hanging_m() const { return height_m_ - radius_m_; }
    double arc_m() const { return 0.5 * pi * radius_m_; }
    double height_m_, sweep_m_, radius_m_;
};

/// Folds of a hanging cloth: deeper toward the hem, never quite regular; never behind the sheet.
double fold_m(double across_m, double along_m, double height_m) {
    const double phase = fold_rad_per_m * across_m + 0.8 * std::sin(1.7 * across_m + 0.6) +
                         0.25 * std::sin(0.9 * along_m);
    const double deeper = 0.55 + 0.45 * std::min(1.0, along_m / height_m);
    return fold_depth_m * deeper * (1.0 + std::sin(phase));
}

Mesh sheet_of(const Background& b) {
    const Profile profile(b);
    const bool cloth = b.kind == BackgroundKind::cloth;
    const std::vector<double> stations = profile.stations(cloth ? 0.16 : 0.22);
    const auto rows = static_cast<int>(stations.size()) - 1;
    const auto side = [&](double behind_m) {
        return [&, behind_m](double u, double v) {
            // v runs from the front edge up to the roll, so that the face is toward the camera.
            const auto row = static_cast<std::size_t>(std::lround((1.0 - v) * rows));
            const ProfilePoint point = profile.at(stations[row]);
            const double across = (u - 0.5) * b.width_m;
            const double fold = cloth ? fold_m(across, stations[row], b.height_m) : 0.0;
            const Vec2 place = point.place + point.normal * (fold - behind_m);
            return Vec3(b.offset_m + across, place.y, place.x - b.distance_m);
        };
    };
    return build::slab(build::cells(b.width_m, cloth ? 0.05 : 0.22), rows, side(0.0),
                       side(sheet_thickness_m));
}

/// One of the two stands, as a support without a light.
void add_stand(PartList& list, const Vec3& foot_m, double height_m) {
    Support support;
    support.kind = SupportKind::standard;
    support.base.foot_radius_m = 0.44;
    support.base.hub_height_m = std::min(0.44, 0.5 * height_m);
    support.column.height_m = height_m;
    support.column.min_height_m = 0.42 * height_m;
    support.column.tube_diameter_m = 0.031;
    support.column.sections = 3;
    SupportPose pose;
    pose.hub_m = foot_m + Vec3(0, support.base.hub_height_m, 0);
    pose.column_top_m = foot_m + Vec3(0, height_m, 0);
    for (int leg = 0; leg < 3; ++leg)
        pose.feet_m.push_back(foot_m +
                              support.base.foot_radius_m * direction_from({120.0 * leg, 0.0}));
    gear::add_legs(list, support, pose);
    gear::add_column(list, support, pose, height_m);
}

/// Bar, roll or rail, clamps, and the two stands that carry them.
std::vector<ScenePart> hardware(const Background& b, std::uint64_t key) {
    PartList list("background", ray_mask::gear);
    const bool paper = b.kind == BackgroundKind::paper;
    const double half = 0.5 * b.width_m;
    const double radius = paper ? roll_radius_m : 0.018;
    const Vec3 centre(b.offset_m, b.height_m, -b.distance_m - radius - sheet_thickness_m);
    const Vec3 x(1, 0, 0);
    const Vec3 bar_end = x * (half + stand_beside_m + 0.05);
    list.add("bar", materials::aluminium(),
             build::bar(centre - bar_end, centre + bar_end, 0.016, 16));
    if (paper) {
        list.add("roll", materials::painted(b.reflectance, 0.85F, Finish::paper),
                 build::bar(centre - x * half, centre + x * half, radius, 28));
        for (const double hand : {-1.0, 1.0})
            list.add("roll", materials::cardboard(),
                     build::drum(centre + x * (hand * (half + 0.012)), x, 0.030, 0.030, 20));
    }
    for (const double hand : {-1.0, 1.0}) {
        const Vec3 clamp = centre + x * (hand * (half - 0.07));
        list.add("clamp", materials::yellow(),
                 build::chamfered_box({clamp + Vec3(0, radius * 0.55, radius * 0.62), Mat3(1.0)},
                                      {0.014, 0.034, 0.020}, 0.004));
        const Vec3 foot(centre.x + hand * (half + stand_beside_m), 0.0, centre.z);
        add_stand(list, foot, b.height_m - 0.016);
        list.add("clamp", materials::black_metal(),
                 build::chamfered_box({foot + Vec3(0, b.height_m, 0), Mat3(1.0)},
                                      {0.022, 0.030, 0.026}, 0.005));
    }
    return list.take(key);
}

std::uint64_t key_of(const Background& b) {
    return ContentKey()
        .add("background")
        .add(static_cast<int>(b.kind))
        .add(b.width_m)
        .add(b.height_m)
        .add(b.distance_m)
        .add(b.offset_m)
        .add(b.sweep_m)
        .add(b.reflectance.rgb)
        .value();
}

} // namespace

std::uint64_t first_part_key(const Background& background) {
    return part_key(key_of(background), 0);
}

std::vector<ScenePart> background_parts(const Background& background) {
    if (background.kind == BackgroundKind::none) return {};
    const bool paper = background.kind == BackgroundKind::paper;
    const std::uint64_t key = key_of(background);
    PartList list("background", ray_mask::background);
    list.add(paper ? "paper" : "cloth",
             materials::painted(background.reflectance, paper ? 0.85F : 0.90F,
                                paper ? Finish::paper : Finish::cloth),
             sheet_of(background), 40.0);
    std::vector<ScenePart> parts = list.take(key);
    for (ScenePart& part : hardware(background, ContentKey().add(key).add("hardware").value()))
        parts.push_back(std::move(part));
    return parts;
}

} // namespace keystead
