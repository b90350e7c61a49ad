// The modifier's rows: its face, its beam, what stands in front of it, grid and gel.
#include "engine/ui/gels.h"
#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"
#include "engine/ui/words.h"
#include "sim/set/field_rules.h"

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

namespace keystead::ui {

namespace {

using Words = std::vector<std::string>;

template <class T>
Words names_of(const std::vector<CatalogueEntry<T>>& entries, const char* first = nullptr) {
    Words names;
    if (first != nullptr) names.emplace_back(first);
    for (const auto& entry : entries) names.push_back(entry.name);
    return names;
}

/// Rows of one light's modifier: paths start at `modifier.`.
struct Rows {
    Flow& flow;
    const std::string& id;

    std::string path(const std::string& field) const { return light_path(id, "modifier." + field); }
    void length(const char* label, const char* field, double value, double low_m,
                double high_m) const {
        number_row(
            flow,
            {label, path(field), value, {Dimension::length, "m", low_m, high_m, 3, {}}, 0.002, {}});
    }
    void angle(const char* label, const char* field, double value, double low_deg,
               double high_deg) const {
        number_row(flow, {label,
                          path(field),
                          value,
                          {Dimension::angle, "°", low_deg, high_deg, 1, {}},
                          0.5,
                          {}});
    }
    void plain(const char* label, const char* field, double value, double low, double high) const {
        number_row(flow,
                   {label, path(field), value, {Dimension::plain, "", low, high, 2, {}}, 0.01, {}});
    }
    template <class E>
    void word(const char* label, const char* field, E now, const Words& shown) const {
        const int picked =
            choice_row(flow, label, path(field), shown[static_cast<std::size_t>(now)], shown);
        if (picked >= 0) flow.out.perform(set_word(path(field), word_of(static_cast<E>(picked))));
    }
};

void face_rows(const Rows& rows, const Modifier& m) {
    const bool ball = m.shape == ModifierShape::bare || m.shape == ModifierShape::sphere;
    const bool umbrella = m.shape == ModifierShape::umbrella;
    rows.length("width", "width_m", m.width_m, 0.01, 4);
    if (!ball && !umbrella) rows.length("height", "height_m", m.height_m, 0.01, 4);
    if (m.shape == ModifierShape::ring)
        rows.length("inside", "inner_width_m", m.inner_width_m, 0, 4);
    if (umbrella) rows.word("lamp looks", "umbrella", m.umbrella, {"into it", "through it"});
    if (m.shape != ModifierShape::bare) rows.length("depth", "depth_m", m.depth_m, 0, 2);
    if (!ball && !umbrella) {
        rows.length("lip", "lip_m", m.lip_m, 0, 0.5);
        rows.angle("turn", "turn_deg", m.turn_deg, -180, 180);
    }
    if (m.shape == ModifierShape::disc)
        rows.length("deflector", "deflector_width_m", m.deflector_width_m, 0, 2);
    if (ball) return;
    static const Words layers{"none", "one", "two", "three", "four"};
    const auto now = static_cast<std::size_t>(std::clamp(m.diffusion_layers, 0, 4));
    const int picked =
        choice_row(rows.flow, "layers", rows.path("diffusion_layers"), layers[now], layers);
    if (picked >= 0)
        rows.flow.out.perform(
            SetValue{rows.path("diffusion_layers"), nlohmann::json(picked).dump()});
    rows.plain("hot spot", "hot_spot", m.hot_spot, -1, 1);
}

void beam_rows(const Rows& rows, const Modifier& m) {
    number_row(rows.flow, {"passes",
                           rows.path("transmission"),
                           m.transmission,
                           {Dimension::plain, "", 0.001, 1, 3, {}},
                           0.002,
                           {}});
    rows.plain("gathers", "beam_exponent", m.beam_exponent, 0.2, 400);
    rows.angle("cut off beyond", "cutoff_half_deg", m.cutoff_half_deg, 1, 90);
    if (m.cutoff_half_deg < 90.0)
        rows.angle("soft edge", "cutoff_edge_deg", m.cutoff_edge_deg, 0.05, 40);
}

void door_rows(const Rows& rows, const Modifier& m) {
    const bool flat = m.shape != ModifierShape::bare && m.shape != ModifierShape::sphere &&
                      m.shape != ModifierShape::umbrella;
    if (!flat && !m.barn_doors) return;
    const std::string path = rows.path("barn_doors");
    if (toggle_row(rows.flow, "barn doors", path, m.barn_doors.has_value(), "on", "none"))
        rows.flow.out.perform(m.barn_doors
                                  ? set_nothing(path)
                                  : Command{SetValue{path, nlohmann::json{{"top_deg", 45.0},
                                                                          {"bottom_deg", 45.0},
                                                                          {"left_deg", 45.0},
                                                                          {"right_deg", 45.0}}
                                                               .dump()}});
    if (!m.barn_doors) return;
    rows.angle("  top", "barn_doors.top_deg", m.barn_doors->top_deg, -80, 180);
    rows.angle("  bottom", "barn_doors.bottom_deg", m.barn_doors->bottom_deg, -80, 180);
    rows.angle("  left", "barn_doors.left_deg", m.barn_doors->left_deg, -80, 180);
    rows.angle("  right", "barn_doors.right_deg", m.barn_doors->right_deg, -80, 180);
    rows.length("  length", "barn_doors.length_m", m.barn_doors->length_m, 0.02, 0.6);
}

void grid_rows(const Rows& rows, const Modifier& m) {
    const auto& grids = catalogue().grids;
    const std::string path = rows.path("grid");
    const auto& grid = m.grid;
    const std::string now = !grid                ? "none"
                            : grid->from.empty() ? grid_words(*grid)
                                                 : entry_name(grid->from);
    const int picked = choice_row(rows.flow, "grid", path, now, names_of(grids, "none"));
    if (picked == 0 && grid) rows.flow.out.perform(set_nothing(path));
    if (picked > 0)
        rows.flow.out.perform(set_from(path, grids[static_cast<std::size_t>(picked) - 1].id));
    if (!grid) return;
    rows.word("  given by", "grid.reading", grid->reading,
              {"its cells", "angle of cut-off", "angle of half light"});
    if (grid->reading == GridReading::cells) {
        rows.length("  cell width", "grid.cell_width_m", grid->cell_width_m, 0.001, 0.3);
        rows.length("  cell depth", "grid.cell_depth_m", grid->cell_depth_m, 0.001, 0.5);
    } else {
        rows.angle("  printed angle", "grid.nominal_deg", grid->nominal_deg, 1, 170);
    }
    rows.plain("  walls send on", "grid.wall_reflection", grid->wall_reflection, 0, 0.2);
}

/// A distribution measured by its maker, in place of what is computed from the rows above.
void measured_row(const Rows& rows, const Modifier& m) {
    static const Words without{"none", "a file, IES or LDT…"}, with{"none", "another file…"};
    const std::string path = rows.path("photometric");
    const std::string now =
        m.photometric ? std::filesystem::path(m.photometric->path).filename().string() : "none";
    const int picked =
        choice_row(rows.flow, "measured light", path, now, m.photometric ? with : without);
    if (picked == 0 && m.photometric) rows.flow.out.perform(set_nothing(path));
    if (picked == 1) rows.flow.out.wish(Act::choose_measured);
    if (m.photometric)
        rows.angle("  turn", "photometric.turn_deg", m.photometric->turn_deg, -180, 180);
}

void gel_rows(const Rows& rows, const Modifier& m) {
    const int picked =
        choice_row(rows.flow, "gel", rows.path("gel"), gel_words(m.gel), gel_names());
    if (const auto command = gel_command(rows.id, m, picked)) rows.flow.out.perform(*command);
    if (!m.gel) return;
    number_row(rows.flow, {"  shift",
                           rows.path("gel.mired_shift"),
                           m.gel->mired_shift,
                           {Dimension::plain, "", -400, 500, 0, {}},
                           1.0,
                           {}});
    rows.plain("  passes", "gel.transmission", m.gel->transmission, 0.001, 1);
}

} // namespace

void modifier_section(Flow& flow, const Light& light, OpenSections& open) {
    if (!section(flow, "Modifier", modifier_words(light.modifier), open.modifier)) return;
    const Modifier& m = light.modifier;
    const auto& all = catalogue().modifiers;
    const std::string now = m.from.empty() ? modifier_words(m) : entry_name(m.from);
    const int picked =
        choice_row(flow, "kind", light_path(light.id, "modifier"), now, names_of(all));
    if (picked >= 0)
        flow.out.perform(
            set_from(light_path(light.id, "modifier"), all[static_cast<std::size_t>(picked)].id));
    const Rows rows{flow, light.id};
    face_rows(rows, m);
    beam_rows(rows, m);
    door_rows(rows, m);
    grid_rows(rows, m);
    gel_rows(rows, m);
    measured_row(rows, m);
    number_row(flow, {"mass",
                      light_path(light.id, "modifier.mass_kg"),
                      m.mass_kg,
                      {Dimension::mass, "kg", 0, 20, 1, {}},
                      0.05,
                      {}});
    flow.skip(6);
}

} // namespace keystead::ui
