// Measuring a shape as an anthropometrist would: widest, farthest, and a tape round the neck.
#include "sim/subject/head.h"
#include "sim/subject/landmarks.h"
#include "sim/subject/measuring.h"

namespace keystead::sculpt {

namespace {

const Vec3 inward(-1, 0, 0), ahead(0, 0, 1);

} // namespace

Vec3 glabella_of(const Shape& s) {
    const SkinField f(s);
    return highest(
        s.height_of(32), s.height_of(52),
        [&](double y) {
            return march(f, {0, y, 150}, -ahead);
        },
        [](const Vec3& p) { return p.z; });
}

double head_length_of(const Shape& s) {
    const SkinField f(s);
    const Vec3 glabella = glabella_of(s);
    const auto behind = [&](double y) { return march(f, {0, y, -170}, ahead); };
    const auto far = [&](const Vec3& p) { return glm::length(p - glabella); };
    return far(highest(s.height_of(10), s.height_of(80), behind, far));
}

double head_breadth_of(const Shape& s) {
    const SkinField f(s);
    const auto widest = [](const Vec3& p) { return p.x; };
    const auto side = [&](double y, double z) { return march(f, {140, y, z}, inward, 139.0); };
    const double y0 = s.height_of(46.0);
    const Vec3 along = highest(
        -45, 20, [&](double z) { return side(y0, z); }, widest);
    return 2.0 *
           highest(
               s.height_of(36), s.height_of(80), [&](double y) { return side(y, along.z); }, widest)
               .x;
}

double head_girth_of(const Shape& s) {
    const SkinField f(s);
    // The tape lies over the glabella and the back of the head, nearly level.
    const Vec3 glabella = glabella_of(s);
    const Vec3 front = march(f, {0, glabella.y + 5.0, 150}, -ahead);
    const Vec3 back = highest(
        s.height_of(10), s.height_of(80),
        [&](double y) {
            return march(f, {0, y, -170}, ahead);
        },
        [](const Vec3& p) { return -p.z; });
    const Vec3 centre = 0.5 * (front + back), along = glm::normalize(front - back);
    std::vector<Vec2> ring;
    constexpr int count = 96;
    for (int i = 0; i < count; ++i) {
        const double turn = 2.0 * pi * i / count;
        const Vec3 out = Vec3(std::cos(turn), 0, 0) + along * std::sin(turn);
        const double r = glm::length(march(f, centre + out * 150.0, -out, 149.0) - centre);
        ring.emplace_back(r * std::cos(turn), r * std::sin(turn));
    }
    return hull_perimeter(std::move(ring));
}

double bizygomatic_of(const Shape& s) {
    const SkinField f(s);
    const double y = s.height_of(-2.0);
    return 2.0 * highest(
                     16, 60,
                     [&](double z) {
                         return march(f, {140, y, z}, inward, 139.0);
                     },
                     [](const Vec3& p) { return p.x; })
                     .x;
}

double bigonial_of(const Shape& s) {
    const SkinField f(s);
    const double y = s.height_of(-58.0);
    return 2.0 * highest(
                     4, 34,
                     [&](double z) {
                         return march(f, {140, y, z}, inward, 139.0);
                     },
                     [](const Vec3& p) { return p.x; })
                     .x;
}

Vec3 pronasale_of(const Shape& s) {
    const SkinField f(s);
    return highest(
        s.height_of(-28), s.height_of(0),
        [&](double y) {
            return march(f, {0, y, 160}, -ahead);
        },
        [](const Vec3& p) { return p.z; });
}

Vec3 subnasale_of(const Shape& s) {
    const SkinField f(s);
    const auto front = [&](double y) { return march(f, {0, y, 160}, -ahead); };
    const Vec3 tip = pronasale_of(s);
    const Vec3 lip = highest(s.height_of(canonical_y::stomion + 1.5), s.height_of(-41.0), front,
                             [](const Vec3& p) { return p.z; });
    const Vec3 edge = glm::normalize(lip - tip);
    const Vec3 behind(0.0, edge.z, -edge.y);
    return highest(lip.y, mix(tip.y, lip.y, 0.2), front,
                   [&](const Vec3& p) { return std::abs(glm::dot(p - tip, behind)); });
}

double brow_overhang_of(const Shape& s) {
    const SkinField f(s);
    const Vec3 brow = highest(
        s.eye.y + 12.0, s.eye.y + 32.0,
        [&](double y) {
            return march(f, {s.eye.x, y, 150}, -ahead);
        },
        [](const Vec3& p) { return p.z; });
    return brow.z - s.eye.z - cornea_ahead_mm;
}

double nose_protrusion_of(const Shape& s) {
    return pronasale_of(s).z - subnasale_of(s).z;
}

Vec3 alare_of(const Shape& s) {
    const SkinField f(s);
    const double z = (97.0 + 3.5 * s.nose_protrusion) * s.scale_z(-19.6);
    return highest(
        s.height_of(-26), s.height_of(-13),
        [&](double y) {
            return march(f, {45, y, z}, inward, 44.0);
        },
        [](const Vec3& p) { return p.x; });
}

Vec3 sellion_of(const Shape& s) {
    const SkinField f(s);
    return highest(
        s.height_of(12), s.height_of(33),
        [&](double y) {
            return march(f, {0, y, 150}, -ahead);
        },
        [](const Vec3& p) { return -p.z; });
}

Vec3 menton_of(const Shape& s) {
    const SkinField f(s);
    const double low = s.height_of(-190.0);
    return highest(
        58, 98,
        [&](double z) {
            return march(f, {0, low, z}, {0, 1, 0});
        },
        [](const Vec3& p) { return -p.y; });
}

double neck_girth_of(const Shape& s) {
    // A tape at the larynx, 20 mm under the chin, across the neck's lean; it bridges hollows, so
    // the hull counts.
    const SkinField f(s);
    const Vec3 centre(0.0, menton_of(s).y - 20.0, -32.0);
    const Vec3 axis = glm::normalize(Vec3(0.0, 1.0, 0.19));
    const Vec3 forward = glm::normalize(glm::cross(Vec3(1, 0, 0), axis));
    std::vector<Vec2> ring;
    constexpr int count = 144; // close enough not to miss the ropes of muscle
    for (int i = 0; i < count; ++i) {
        const double turn = 2.0 * pi * i / count;
        const Vec2 d(std::cos(turn), std::sin(turn));
        const Vec3 out = Vec3(d.x, 0, 0) + forward * d.y;
        const Vec3 p = march(f, centre + out * 110.0, -out, 109.0);
        ring.push_back(d * glm::length(p - centre));
    }
    return hull_perimeter(std::move(ring));
}

double bideltoid_of(const Shape& s) {
    const SkinField f(s);
    const double z = s.from_canonical({0, -270, -55}).z;
    return 2.0 * highest(
                     s.height_of(-340), s.height_of(-215),
                     [&](double y) {
                         return march(f, {420, y, z}, inward, 400.0);
                     },
                     [](const Vec3& p) { return p.x; })
                     .x;
}

double biacromial_of(const Shape& s) {
    const SkinField f(s);
    const double z = s.from_canonical({0, canonical_y::shoulder, -54}).z;
    const auto top = [&](double x) { return march(f, {x, 0, z}, {0, -1, 0}, 400.0).y; };
    double inner = 0.32 * s.measures.bideltoid, outer = 0.49 * s.measures.bideltoid;
    for (int i = 0; i < 12; ++i) {
        const double x = 0.5 * (inner + outer);
        (top(x - 3.0) - top(x + 3.0) < 6.0 * std::tan(radians(15.0)) ? inner : outer) = x;
    }
    return inner + outer;
}

double ear_shift_of(const Shape& s) {
    constexpr double modelled = 69.3;
    double low = 40.0, high = 110.0;
    for (int i = 0; i < 30; ++i) {
        const double x = 0.5 * (low + high);
        const Vec3 q(x, ear_y, ear_z);
        (with_bones(s, q, skull(s, q)) < 0.0 ? low : high) = x;
    }
    return low - modelled;
}

Vec3 ear_space_of(const Shape& s) {
    const double tall = (s.height_of(ear_y + 25.0) - s.height_of(ear_y - 25.0)) / 50.0;
    return {s.scale_x(ear_y), tall, s.scale_z(ear_y)};
}

double tragion_top_of(const Shape& s) {
    const SkinField f(s);
    return highest(
               -60, 40,
               [&](double z) {
                   return march(f, {0, 220, z}, {0, -1, 0});
               },
               [](const Vec3& p) { return p.y; })
        .y;
}

double hull_perimeter(std::vector<Vec2> points) {
    std::sort(points.begin(), points.end(),
              [](const Vec2& a, const Vec2& b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
    std::vector<Vec2> hull;
    const auto turn = [](const Vec2& a, const Vec2& b, const Vec2& c) {
        return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    };
    for (int half = 0; half < 2; ++half) {
        const std::size_t start = hull.size();
        for (const Vec2& p : points) {
            while (hull.size() >= start + 2 && turn(hull[hull.size() - 2], hull.back(), p) <= 0.0)
                hull.pop_back();
            hull.push_back(p);
        }
        hull.pop_back();
        std::reverse(points.begin(), points.end());
    }
    double length = 0.0;
    for (std::size_t i = 0; i < hull.size(); ++i)
        length += glm::length(hull[(i + 1) % hull.size()] - hull[i]);
    return length;
}

Measured measure(const Shape& s) {
    Measured m;
    m.head_girth = head_girth_of(s);
    m.head_length = head_length_of(s);
    m.head_breadth = head_breadth_of(s);
    m.bizygomatic = bizygomatic_of(s);
    m.bigonial = bigonial_of(s);
    m.nose_protrusion = nose_protrusion_of(s);
    m.nose_breadth = 2.0 * alare_of(s).x;
    m.menton_sellion = glm::length(sellion_of(s) - menton_of(s));
    m.tragion_top = tragion_top_of(s);
    m.neck_girth = neck_girth_of(s);
    m.bideltoid = bideltoid_of(s);
    return m;
}

} // namespace keystead::sculpt
