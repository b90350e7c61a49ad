// An example set of the installation, as the program opens it.
#pragma once

#include "sim/set/catalogue.h"
#include "sim/set/set_io.h"

#include <catch2/catch.hpp>
#include <string>

namespace keystead {

inline Set demo(const std::string& name) {
    const auto loaded = load_set(assets_folder() / "sets" / name);
    REQUIRE(loaded);
    return loaded.value().set;
}

} // namespace keystead
