#include "tools/keystead/agree_face.h"

#include "engine/render/face_agreement.h"
#include "engine/render/png.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <algorithm>
#include <cstdio>
#include <map>

namespace keystead {

namespace {

double percent(std::size_t part, std::size_t whole) {
    return whole > 0 ? 100.0 * static_cast<double>(part) / static_cast<double>(whole) : 0.0;
}

void print_light(const FaceAgreement& light) {
    const auto of = [&light](FaceVerdict verdict) { return light.count(verdict); };
    const std::size_t all = light.places.size();
    std::printf("  %-16s %7.2f %% %8zu %6zu %6zu %9zu %9zu %7.1f %% %7.1f %%\n",
                light.light.c_str(), 100.0 * light.share(), light.compared(),
                of(FaceVerdict::both_lit), of(FaceVerdict::both_dark),
                of(FaceVerdict::only_map_lit), of(FaceVerdict::only_picture_lit),
                percent(of(FaceVerdict::penumbra), all), percent(of(FaceVerdict::mixed), all));
    std::map<std::string, int> blockers;
    for (const FacePlace& place : light.places)
        if (!place.blocker.empty()) ++blockers[place.blocker];
    for (const auto& [blocker, places] : blockers)
        std::printf("    only in the picture dark: %d behind %s\n", places, blocker.c_str());
}

} // namespace

int agree_face(const std::string& set, const std::shared_ptr<const Studio>& studio,
               const std::filesystem::path& stem) {
    const auto chart = make_face_chart(*studio->form);
    const std::optional<FaceComparison> found = compare_face(studio, *chart);
    if (!found) {
        std::printf("%s: the camera sees no face\n", set.c_str());
        return exit_code::done;
    }
    std::printf("%s: face map of the simulation against the picture, light by light\n"
                "  %zu of the map's %zu places in sight\n"
                "  %-16s %9s %8s %6s %6s %9s %9s %9s %9s\n",
                set.c_str(), found->seen, found->covered, "light", "agree", "compared", "lit",
                "dark", "map lit", "map dark", "penumbra", "mixed");
    bool off = false;
    for (const FaceAgreement& light : found->lights) {
        print_light(light);
        off = off || light.share() < wanted_face_share;
        std::filesystem::path file = stem;
        file += "-face-" + light.light + ".png";
        if (Outcome failed = write_png(face_map(*found, light), file)) {
            complain(failed->message());
            return exit_code::input;
        }
    }
    return off ? exit_code::danger : exit_code::done;
}

} // namespace keystead
