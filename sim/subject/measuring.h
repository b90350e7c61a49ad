// Single measurements of a shape's field; `measure` takes them all.
#pragma once

#include "sim/subject/solve.h"

namespace keystead::sculpt {

Vec3 glabella_of(const Shape& shape);
double head_length_of(const Shape& shape);
double head_breadth_of(const Shape& shape);
/// Tape over the brow ridge and the back of the head.
double head_girth_of(const Shape& shape);
double bizygomatic_of(const Shape& shape);
double bigonial_of(const Shape& shape);
double nose_protrusion_of(const Shape& shape);
double neck_girth_of(const Shape& shape);
double bideltoid_of(const Shape& shape);
/// Breadth between the places where the shoulders' top line begins to fall: 15° down, outside its
/// level part. The bone's tip itself makes no mark on the skin.
double biacromial_of(const Shape& shape);
/// How far the side of the head stands out behind the ear, against the modelled head; canonical.
double ear_shift_of(const Shape& shape);
Vec3 ear_space_of(const Shape& shape);
double tragion_top_of(const Shape& shape);
Vec3 pronasale_of(const Shape& shape);
Vec3 alare_of(const Shape& shape);
Vec3 sellion_of(const Shape& shape);
/// The corner between nose and lip: farthest behind a straight edge laid from tip to lip.
Vec3 subnasale_of(const Shape& shape);
/// The foremost skin above the pupil, ahead of the cornea.
double brow_overhang_of(const Shape& shape);
Vec3 menton_of(const Shape& shape);

/// Length of a tape round points of a plane.
double hull_perimeter(std::vector<Vec2> points);

/// The point(t), low <= t <= high, with the greatest score(point): samples, then ever smaller
/// steps.
template <class Point, class Score>
Vec3 highest(double low, double high, Point&& point, Score&& score) {
    constexpr int samples = 16;
    double best_t = low;
    Vec3 best = point(low);
    const auto consider = [&](double t) {
        const Vec3 p = point(std::clamp(t, low, high));
        if (score(p) > score(best)) best = p, best_t = std::clamp(t, low, high);
    };
    for (int i = 1; i <= samples; ++i) consider(mix(low, high, double(i) / samples));
    double width = (high - low) / samples;
    for (int i = 0; i < 10; ++i) {
        width *= 0.55;
        const double middle = best_t;
        consider(middle - width);
        consider(middle + width);
    }
    return best;
}

} // namespace keystead::sculpt
