// The catalogue of generic gear in assets/catalogue.json: typical values, each with where it came
// from. No brands, no model names.
#pragma once

#include "sim/base/result.h"
#include "sim/set/set.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace keystead {

template <class T>
struct CatalogueEntry {
    std::string id;     ///< e.g. `century-40`
    std::string name;   ///< e.g. `century stand, 40 in`
    std::string source; ///< where the typical values came from
    T value;
};

struct Catalogue {
    std::vector<CatalogueEntry<Support>> supports;
    std::vector<CatalogueEntry<Arm>> arms;
    std::vector<CatalogueEntry<Counterweight>> counterweights;
    std::vector<CatalogueEntry<Bag>> bags;
    std::vector<CatalogueEntry<Head>> heads;
    std::vector<CatalogueEntry<Modifier>> modifiers;
    std::vector<CatalogueEntry<Grid>> grids;
};

Result<Catalogue> load_catalogue(const std::filesystem::path& file);

/// The project's own catalogue, read once.
const Catalogue& catalogue();

/// Why the project's own catalogue could not be read (it is then empty), or nothing.
Outcome catalogue_problem();

/// The entry with that id, or nullptr.
template <class T>
const CatalogueEntry<T>* find_entry(const std::vector<CatalogueEntry<T>>& entries,
                                    std::string_view id) {
    for (const auto& entry : entries)
        if (entry.id == id) return &entry;
    return nullptr;
}

/// assets/ of the installation: $KEYSTEAD_ASSETS, else beside the program, else the source tree.
std::filesystem::path assets_folder();

} // namespace keystead
