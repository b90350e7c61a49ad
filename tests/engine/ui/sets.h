// Example sets for the tests of the window.
#pragma once

#include "sim/set/set_io.h"

#include <catch2/catch.hpp>
#include <string>

namespace keystead::ui::testing {

inline Set example(const std::string& name) {
    Result<LoadedSet> loaded =
        load_set(std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/" + name + ".json");
    INFO((loaded ? std::string() : loaded.problem().message()));
    REQUIRE(loaded);
    return std::move(loaded).value().set;
}

inline const Light& light_of(const Set& set, const std::string& id) {
    for (const Light& light : set.lights)
        if (light.id == id) return light;
    FAIL("no light " << id);
    return set.lights.front();
}

} // namespace keystead::ui::testing
