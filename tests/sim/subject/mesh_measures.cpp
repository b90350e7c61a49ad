#include "mesh_measures.h"

#include "mesh_section.h"

#include <algorithm>
#include <cmath>

namespace mesh_measures {

using namespace keystead;

namespace {

constexpr int x_axis = 0, y_axis = 1, z_axis = 2;

// Seen from the side, head only; heights rise along the profile.
struct Midline {
    std::vector<Chord> section;
    Profile front;
    std::size_t pronasale = 0, sellion = 0, glabella = 0, subnasale = 0, lip = 0;
    double menton_y = 0.0, menton_z = 0.0;

    Vec3 point(std::size_t i) const { return {0.0, front.at[i], front.out[i]}; }
    Vec3 menton() const { return {0.0, menton_y, menton_z}; }
};

// The corner under the nose: farthest behind the straight edge laid from the tip to the lip.
std::size_t corner(const Midline& m) {
    const Vec3 tip = m.point(m.pronasale), edge = m.point(m.lip) - tip;
    const Vec3 behind = glm::normalize(Vec3(0.0, edge.z, -edge.y));
    std::size_t best = m.lip;
    double far = 0.0;
    for (std::size_t i = m.lip; i < m.pronasale; ++i) {
        const double away = std::abs(glm::dot(m.point(i) - tip, behind));
        if (away > far) far = away, best = i;
    }
    return best;
}

Midline midline_of(const Mesh& skin) {
    Midline m;
    // A hair beside the plane of symmetry, on which vertices lie.
    m.section =
        cut(skin, {0.01, 0, 0}, {1, 0, 0}, [](Region, const Vec3& p) { return p.y > -145.0; });
    m.front = profile(m.section, y_axis, -140.0, 100.0, z_axis);
    const auto tip = std::max_element(m.front.out.begin(), m.front.out.end());
    m.pronasale = static_cast<std::size_t>(tip - m.front.out.begin());
    m.sellion = middle_of_turn(m.front, walk(m.front, m.pronasale, 1, true));
    m.glabella = walk(m.front, m.sellion, 1, false, 50);
    m.lip = walk(m.front, walk(m.front, m.pronasale, -1, true), -1, false);
    m.subnasale = corner(m);
    m.menton_y = 1e9;
    for (const Chord& c : m.section)
        if (c.a.z > *tip - 60.0 && c.a.y < m.menton_y) m.menton_y = c.a.y, m.menton_z = c.a.z;
    return m;
}

double farthest_behind(const Midline& m) {
    const Vec3 glabella = m.point(m.glabella);
    double far = 0.0;
    for (const Chord& c : m.section)
        if (c.a.z < 0.0 && c.a.y > 0.0) far = std::max(far, glm::length(c.a - glabella));
    return far;
}

struct Box {
    Vec2 heights, depths;
};

// Widest place of the bare head in a box, ears aside.
double widest(const Mesh& skin, const Box& box) {
    double half = 0.0;
    for (const glm::uvec3& t : skin.triangles)
        for (glm::length_t e = 0; e < 3; ++e) {
            const Vec3 p = Vec3(skin.positions_m[t[e]]) * 1000.0;
            const bool inside = p.y >= box.heights.x && p.y <= box.heights.y &&
                                p.z >= box.depths.x && p.z <= box.depths.y;
            if (inside && skin.regions[t[e]] != static_cast<std::uint8_t>(Region::ear))
                half = std::max(half, p.x);
        }
    return 2.0 * half;
}

// As `widest`, at one height: between vertices, too.
double widest_at(const Mesh& skin, double height, const Vec2& depths) {
    const auto section = cut(skin, {0, height, 0}, {0, 1, 0},
                             [](Region r, const Vec3&) { return r != Region::ear; });
    double half = 0.0;
    for (double z = depths.x; z <= depths.y; z += 0.5)
        half = std::max(half, outermost(section, z_axis, z + 1e-7, x_axis).value_or(0.0));
    return 2.0 * half;
}

double bizygomatic(const Mesh& skin) {
    // The arch runs level with the ear hole; the temples above are nearly as broad, so the
    // caliper stays within four millimetres of it.
    double most = 0.0;
    for (double y = -6.0; y <= 2.0; y += 1.0) most = std::max(most, widest_at(skin, y, {16, 60}));
    return most;
}

// Where the wings stand out farthest: going back from the tip, before the crease at the cheek.
double nose_breadth(const Mesh& skin, const Midline& m) {
    double most = 0.0;
    const double base = m.front.at[m.subnasale], tip = m.front.at[m.pronasale];
    for (double y = base + 2.0; y < tip + 2.0; y += 1.0) {
        const auto section = cut(skin, {0, y, 0}, {0, 1, 0});
        const double from = outermost(section, x_axis, 0.5, z_axis).value_or(0.0);
        const Profile side = profile(section, z_axis, from - 0.5, from - 40.0, x_axis, 0.25);
        for (std::size_t i = 8; i + 8 < side.out.size(); ++i) {
            if (side.out[i] < 0.6 * from / 10.0 || side.out[i + 4] - side.out[i] > 0.12) continue;
            most = std::max(most, 2.0 * side.out[i]);
            break;
        }
    }
    return most;
}

double lip_length(const Mesh& skin) {
    double half = 0.0;
    for (const glm::uvec3& t : skin.triangles)
        for (glm::length_t e = 0; e < 3; ++e) {
            const auto i = t[e], j = t[(e + 1) % 3];
            const auto red = static_cast<std::uint8_t>(Region::lip);
            if ((skin.regions[i] == red) == (skin.regions[j] == red)) continue;
            half = std::max(half, 500.0 * (skin.positions_m[i].x + skin.positions_m[j].x));
        }
    return 2.0 * half;
}

double philtrum(const Mesh& skin, const Midline& m) {
    double top = -1e9;
    for (const glm::uvec3& t : skin.triangles)
        for (glm::length_t e = 0; e < 3; ++e) {
            const auto i = t[e], j = t[(e + 1) % 3];
            const auto red = static_cast<std::uint8_t>(Region::lip);
            if (skin.positions_m[i].x != 0.0F || skin.positions_m[j].x != 0.0F) continue;
            if ((skin.regions[i] == red) == (skin.regions[j] == red)) continue;
            top = std::max(top, 500.0 * (skin.positions_m[i].y + skin.positions_m[j].y));
        }
    const Vec3 edge = m.point(m.front.index_of(top));
    return glm::length(edge - m.point(m.subnasale));
}

double interpupillary(const Mesh& eyes) {
    double left_z = -1e9, right_z = -1e9, left_x = 0.0, right_x = 0.0;
    for (const glm::vec3& p : eyes.positions_m) {
        if (p.x > 0.0F && p.z > left_z) left_z = p.z, left_x = p.x;
        if (p.x < 0.0F && p.z > right_z) right_z = p.z, right_x = p.x;
    }
    return (left_x - right_x) * 1000.0;
}

// The auricle by caliper: its two farthest points, and the two farthest on a line across that. Skin
// of the neck behind the lobe, which lies far in, is left out.
void measure_ear(const Mesh& skin, Table& t) {
    const double side = 0.5 * widest_at(skin, 0.0, {8, 20});
    std::vector<Vec3> points;
    for (std::size_t i = 0; i < skin.positions_m.size(); ++i) {
        const Vec3 p = Vec3(skin.positions_m[i]) * 1000.0;
        if (skin.regions[i] == static_cast<std::uint8_t>(Region::ear) && p.x > side - 7.0)
            points.push_back(p);
    }
    Vec3 along(0.0);
    for (const Vec3& a : points)
        for (const Vec3& b : points)
            if (glm::length(a - b) > glm::length(along)) along = a - b;
    t.ear_length = glm::length(along);
    const Vec3 axis = along / t.ear_length;
    for (const Vec3& a : points)
        for (const Vec3& b : points)
            if (std::abs(glm::dot(a - b, axis)) < 4.0)
                t.ear_breadth = std::max(t.ear_breadth, glm::length(a - b));
}

// At the larynx: 20 mm under the chin, across the neck's lean.
double neck_girth(const Mesh& skin, const Midline& m) {
    const Vec3 axis = glm::normalize(Vec3(0.0, 1.0, 0.19));
    const Vec3 middle(0.0, m.menton_y - 20.0, -32.0);
    return tape(cut(skin, middle, axis,
                    [&](Region r, const Vec3& p) {
                        return r != Region::ear && glm::length(p - middle) < 110.0;
                    }),
                axis);
}

double bideltoid(const Mesh& skin) {
    double half = 0.0;
    for (std::size_t i = 0; i < skin.positions_m.size(); ++i) {
        const Vec3 p = Vec3(skin.positions_m[i]) * 1000.0;
        // The hands, which belong to the skin, hang lower.
        if (p.y > -330.0) half = std::max(half, p.x);
    }
    return 2.0 * half;
}

// The bone's tip makes no mark on the skin. Taken for it: where the shoulder's top line, level over
// the bone, begins to fall: 15 degrees down.
double biacromial(const Mesh& skin, double bideltoid_mm) {
    Profile top;
    for (double x = 0.3 * bideltoid_mm; x < 0.495 * bideltoid_mm; x += 0.5) {
        double y = -1e9;
        for (const Chord& c : cut(skin, {x, 0, 0}, {1, 0, 0})) y = std::max({y, c.a.y, c.b.y});
        top.at.push_back(x);
        top.out.push_back(y);
    }
    // Slopes over seven millimetres, so that facets do not count.
    for (std::size_t i = top.at.size() - 8; i > 7; --i)
        if (top.out[i - 7] - top.out[i + 7] < 7.0 * std::tan(radians(15.0))) return 2.0 * top.at[i];
    return 0.0;
}

double brow_ahead(const SubjectForm& form, double half_pupil_distance) {
    double cornea = -1e9, height = 0.0;
    for (const glm::vec3& p : form.eyes->positions_m)
        if (p.z * 1000.0 > cornea) cornea = p.z * 1000.0, height = p.y * 1000.0;
    const auto section = cut(*form.skin, {half_pupil_distance, 0, 0}, {1, 0, 0});
    const Profile front = profile(section, y_axis, height + 12.0, height + 32.0, z_axis);
    return *std::max_element(front.out.begin(), front.out.end()) - cornea;
}

} // namespace

Table measured(const SubjectForm& form) {
    const Mesh& skin = *form.skin;
    const Midline m = midline_of(skin);
    Table t;
    for (const Chord& c : m.section) t.tragion_top = std::max(t.tragion_top, c.a.y);
    t.head_length = farthest_behind(m);
    t.head_breadth = widest(skin, {{m.front.at[m.sellion], 100.0}, {-200, 200}});
    t.bizygomatic = bizygomatic(skin);
    // The corner of the jaw has no outermost point of its own: it is taken a little under the
    // mouth, a tenth of the way to the chin.
    const double mouth = m.front.at[walk(m.front, m.lip, -1, true)];
    t.bigonial = widest_at(skin, glm::mix(mouth, m.menton_y, 0.1), {4, 34});
    t.menton_sellion = glm::length(m.menton() - m.point(m.sellion));
    t.subnasale_sellion = glm::length(m.point(m.subnasale) - m.point(m.sellion));
    t.philtrum = philtrum(skin, m);
    t.nose_protrusion = m.front.out[m.pronasale] - m.front.out[m.subnasale];
    t.nose_breadth = nose_breadth(skin, m);
    t.lip_length = lip_length(skin);
    t.interpupillary = interpupillary(*form.eyes);
    measure_ear(skin, t);
    t.neck_girth = neck_girth(skin, m);
    t.bideltoid = bideltoid(skin);
    t.biacromial = biacromial(skin, t.bideltoid);
    t.brow_ahead_of_cornea = brow_ahead(form, 0.5 * t.interpupillary);
    return t;
}

} // namespace mesh_measures
