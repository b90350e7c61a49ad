// Cuts through a mesh by planes, and what can be read off them. Millimetres.
#pragma once

#include "sim/subject/subject.h"

#include <functional>
#include <optional>
#include <vector>

namespace mesh_measures {

using keystead::Vec2;
using keystead::Vec3;

/// One triangle's part of a cut.
struct Chord {
    Vec3 a, b;
};

/// Where triangles that `keep` allows meet the plane through `point_mm` across `axis`.
std::vector<Chord> cut(const keystead::Mesh& mesh, const Vec3& point_mm, const Vec3& axis,
                       const std::function<bool(keystead::Region, const Vec3&)>& keep = {});

/// The greatest coordinate `of` on the cut where coordinate `along` has the value given.
std::optional<double> outermost(const std::vector<Chord>& cut, int along, double value, int of);

/// A profile read off a cut at even steps: height (or other abscissa) and outermost coordinate.
struct Profile {
    std::vector<double> at, out;
    std::size_t index_of(double value) const;
};
Profile profile(const std::vector<Chord>& cut, int along, double from, double to, int of,
                double step = 0.1);

/// From `start` in steps of +1 or -1 to the first place where the profile stops falling (or
/// rising). A facet's flat is no turning point: it looks `patience` steps on before it stops.
std::size_t walk(const Profile& p, std::size_t start, int step, bool falling, int patience = 10);

/// The middle of a flat turning point: half way between the places a tenth of a millimetre from
/// it, so that it does not hang on one vertex.
std::size_t middle_of_turn(const Profile& p, std::size_t turn);

/// Length of a tape round the cut: it bridges hollows.
double tape(const std::vector<Chord>& cut, const Vec3& axis);

} // namespace mesh_measures
