#include "engine/render/agreement.h"

#include "sim/light/colour.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace keystead {

namespace {

constexpr int tile_px = 16;

/// A pixel's error as if its channels erred together, which the lights' own noise nearly does.
double luminance_error(const glm::vec3& error) {
    return luminance(error);
}

struct Gather {
    RegionMean mean;
    void add(double picture, double reference, double error) {
        ++mean.pixels;
        mean.picture += picture;
        mean.reference += reference;
        mean.error += error * error;
    }
    RegionMean done() const {
        RegionMean result = mean;
        if (mean.pixels == 0) return result;
        const auto count = static_cast<double>(mean.pixels);
        result.picture /= count;
        result.reference /= count;
        result.error = std::sqrt(mean.error) / count;
        return result;
    }
};

bool is_face(const Studio& studio, const ScenePart& part, const Vec3& place_m) {
    if (!studio.subject || part.owner != "subject" || part.part != "skin") return false;
    // Above the chin, and no farther from the nose's root than the ears.
    const Landmarks& marks = studio.subject->landmarks;
    const double reach_m = 1.2 * std::max(glm::length(marks.tragion_left - marks.face),
                                          glm::length(marks.menton - marks.face));
    return glm::length(place_m - marks.face) < reach_m && place_m.y > marks.menton.y - 0.01;
}

/// The part that most pixels of a tile see.
void name_place(Place& place, const Scene& scene, const std::map<std::uint32_t, int>& votes) {
    const auto most =
        std::max_element(votes.begin(), votes.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    if (most == votes.end() || most->first == ray_miss) return;
    place.owner = scene.parts[most->first].owner;
    place.part = scene.parts[most->first].part;
}

std::vector<Place> tiles_of(const LinearImage& picture, const ReferencePicture& reference,
                            const Studio& studio, const SeenParts& seen) {
    std::vector<Place> places;
    for (int top = 0; top < picture.height; top += tile_px)
        for (int left = 0; left < picture.width; left += tile_px) {
            Gather tile;
            std::map<std::uint32_t, int> votes;
            const int right = std::min(left + tile_px, picture.width);
            const int bottom = std::min(top + tile_px, picture.height);
            for (int y = top; y < bottom; ++y)
                for (int x = left; x < right; ++x) {
                    const auto at = static_cast<std::size_t>(y * picture.width + x);
                    tile.add(luminance(picture.pixels[at]), luminance(reference.radiance[at]),
                             luminance_error(reference.standard_error[at]));
                    ++votes[seen.parts[at]];
                }
            Place place;
            place.x_px = (left + right) / 2;
            place.y_px = (top + bottom) / 2;
            place.mean = tile.done();
            name_place(place, studio.scene, votes);
            places.push_back(std::move(place));
        }
    return places;
}

} // namespace

SeenParts parts_seen(const Studio& studio, const View& view, int width_px, int height_px) {
    std::vector<RayQuery> rays;
    for (int y = 0; y < height_px; ++y)
        for (int x = 0; x < width_px; ++x) {
            const Vec2 place(2.0 * (x + 0.5) / width_px - 1.0, 1.0 - 2.0 * (y + 0.5) / height_px);
            RayQuery ray;
            ray.origin_m = view.eye_m;
            ray.direction = glm::normalize(sight_line(view, place));
            ray.start_m = 0.05;
            rays.push_back(ray);
        }
    std::vector<RayHit> hits(rays.size());
    studio.rays->first_hits(rays, ray_mask::all, hits);
    SeenParts seen;
    for (std::size_t i = 0; i < hits.size(); ++i) {
        seen.parts.push_back(hits[i].mesh);
        seen.face.push_back(hits[i].mesh != ray_miss &&
                            is_face(studio, studio.scene.parts[hits[i].mesh],
                                    rays[i].origin_m + hits[i].distance_m * rays[i].direction));
    }
    return seen;
}

Agreement agreement(const LinearImage& picture, const ReferencePicture& reference,
                    const Studio& studio, const SeenParts& seen, double exposure, int worst) {
    Gather face, whole;
    std::size_t within = 0, loosely = 0;
    for (std::size_t i = 0; i < picture.pixels.size(); ++i) {
        const double here = luminance(picture.pixels[i]);
        const double there = luminance(reference.radiance[i]);
        const double error = luminance_error(reference.standard_error[i]);
        whole.add(here, there, error);
        if (seen.face[i] != 0) face.add(here, there, error);
        within += std::abs(here - there) <= 3.0 * error ? 1 : 0;
        loosely += std::abs(here - there) <= std::max(3.0 * error, 0.02 * there) ? 1 : 0;
    }
    Agreement result;
    result.face = face.done();
    result.picture = whole.done();
    const auto count = static_cast<double>(std::max<std::size_t>(1, picture.pixels.size()));
    result.within_error = static_cast<double>(within) / count;
    result.within_loose = static_cast<double>(loosely) / count;
    std::vector<Place> places = tiles_of(picture, reference, studio, seen);
    for (Place& place : places)
        place.off_grey = exposure * (place.mean.picture - place.mean.reference) / 0.18;
    std::erase_if(places, [](const Place& place) {
        return std::abs(place.mean.picture - place.mean.reference) < 3.0 * place.mean.error;
    });
    std::sort(places.begin(), places.end(), [](const Place& a, const Place& b) {
        return std::abs(a.off_grey) > std::abs(b.off_grey);
    });
    places.resize(std::min(places.size(), static_cast<std::size_t>(worst)));
    result.worst = std::move(places);
    return result;
}

RgbaImage difference_map(const LinearImage& picture, const ReferencePicture& reference) {
    RgbaImage map;
    map.width = picture.width;
    map.height = picture.height;
    map.pixels.reserve(4 * picture.pixels.size());
    for (int y = 0; y < map.height; ++y)
        for (int x = 0; x < map.width; ++x) {
            double here = 0.0, there = 0.0;
            for (int dy = -1; dy <= 1; ++dy)
                for (int dx = -1; dx <= 1; ++dx) {
                    const int u = std::clamp(x + dx, 0, map.width - 1);
                    const int v = std::clamp(y + dy, 0, map.height - 1);
                    const auto at = static_cast<std::size_t>(v * map.width + u);
                    here += luminance(picture.pixels[at]);
                    there += luminance(reference.radiance[at]);
                }
            const double stops = here > 0.0 && there > 0.0 ? std::log2(here / there)
                                 : here > there            ? 1.0
                                 : here < there            ? -1.0
                                                           : 0.0;
            const double full = std::clamp(2.0 * stops, -1.0, 1.0);
            const auto code = [](double value) {
                return static_cast<std::uint8_t>(std::lround(std::clamp(value, 0.0, 255.0)));
            };
            const double other = 128.0 * (1.0 - std::abs(full));
            map.pixels.push_back(code(full > 0.0 ? 128.0 + 127.0 * full : other));
            map.pixels.push_back(code(other));
            map.pixels.push_back(code(full < 0.0 ? 128.0 - 127.0 * full : other));
            map.pixels.push_back(255);
        }
    return map;
}

} // namespace keystead
