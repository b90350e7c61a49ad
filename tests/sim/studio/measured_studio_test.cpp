// A light whose distribution comes from a file beside the set.
#include "support/helpers/mesh_files.h"

#include "sim/light/meter.h"
#include "sim/photometry/photometric_file.h"
#include "sim/review/review.h"
#include "sim/studio/studio.h"

#include <catch2/catch.hpp>
#include <fstream>

using namespace keystead;

namespace {

/// LM-63, absolute, the same all round: 900 cd on the axis, straight down to nothing at 60°.
void write_lamp(const std::filesystem::path& file) {
    std::ofstream(file) << "IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0\n1 1 50\n"
                           "0 30 60\n0\n900 450 0\n";
}

Set lit_set() {
    Set set;
    set.subject.hair_style = HairStyle::none;
    Light light;
    light.id = "key";
    light.head.kind = HeadKind::continuous;
    light.modifier.shape = ModifierShape::disc;
    light.modifier.width_m = light.modifier.height_m = 0.01; // the peak is sharp
    light.modifier.photometric.emplace();
    light.modifier.photometric->path = "lamp.ies";
    light.support.base.position_m = {1.0, 1.5};
    set.lights.push_back(light);
    return set;
}

double lux_on_axis(const Studio& studio, double distance_m) {
    const Emitter& emitter = studio.emitters.at(0);
    Probe probe;
    probe.position_m = emitter.centre_m + distance_m * emitter.axes[2];
    probe.facing = -emitter.axes[2];
    return exposure_at(emitter, probe, nullptr);
}

} // namespace

TEST_CASE("A light shines as the file beside the set says", "[studio]") {
    const mesh_files::Folder folder;
    write_lamp(folder.path() / "lamp.ies");
    const Set set = lit_set();
    const auto studio = make_studio(set, nullptr, folder.path());
    REQUIRE(studio->problems.empty());
    // The inverse-square law: 900 cd at 1.5 m is 400 lx; the face takes in 0.2° about its peak.
    CHECK(lux_on_axis(*studio, 1.5) == Approx(400.0).epsilon(4e-3));
    // An edit elsewhere keeps the table; another turn is another light.
    Set brighter = set;
    brighter.lights[0].head.power_stops_below = 1.0;
    const auto again = make_studio(brighter, studio, folder.path());
    CHECK(again->emitters[0].measured == studio->emitters[0].measured);
    CHECK(again->light_keys == studio->light_keys);
    brighter.lights[0].modifier.photometric->turn_deg = 90.0;
    CHECK(make_studio(brighter, again, folder.path())->light_keys != studio->light_keys);
}

TEST_CASE("A broken photometric file is one line, and the light shines as computed", "[studio]") {
    const mesh_files::Folder folder;
    const Set set = lit_set();
    const auto missing = make_studio(set, nullptr, folder.path());
    REQUIRE(missing->problems.size() == 1);
    CHECK(missing->problems[0].message() ==
          "lights[0].modifier.photometric.path: lamp.ies: no such file");
    CHECK(missing->emitters[0].measured == nullptr);
    CHECK(lux_on_axis(*missing, 1.5) > 0.0);
    bool found = false;
    for (const Finding& finding : review_set(*missing).findings)
        if (finding.code == "file-unusable")
            found = finding.message.find("as its modifier's numbers say") != std::string::npos;
    CHECK(found);
    std::ofstream(folder.path() / "lamp.ies") << "IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 3 1 1 2\n";
    const auto broken = make_studio(set, missing, folder.path());
    REQUIRE(broken->problems.size() == 1);
    CHECK(broken->problems[0].message().find('\n') == std::string::npos);
    write_lamp(folder.path() / "lamp.ies");
    const auto mended = make_studio(set, broken, folder.path());
    CHECK(mended->problems.empty());
    CHECK(mended->emitters[0].measured != nullptr);
}
