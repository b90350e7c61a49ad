// Commands the window gives, spelled once: paths of the document and values as JSON text.
#pragma once

#include "engine/edit/set_value.h"
#include "sim/meter/measured.h"
#include "sim/set/catalogue.h"

#include <filesystem>
#include <string>
#include <vector>

namespace keystead::ui {

/// `lights[ID].` and what follows.
std::string light_path(const std::string& id, const std::string& rest);
std::string panel_path(const std::string& id, const std::string& rest);
std::string prop_path(const std::string& id, const std::string& rest);
std::string meter_path(const std::string& id, const std::string& rest);

Command set_flag(std::string path, bool value);
Command set_word(std::string path, const std::string& value);
/// Takes an optional part away.
Command set_nothing(std::string path);
/// Replaces a piece of gear by a catalogue entry.
Command set_from(std::string path, const std::string& entry);
/// What keeps files found when a set of one folder is saved in another.
std::vector<Command> path_commands(const Set& set, const std::filesystem::path& from,
                                   const std::filesystem::path& to);
Command together(std::string label, std::vector<Command> commands);

/// JSON text of one bag, and of a whole list of them.
std::string bag_text(const Bag& bag);
Command set_bags(const std::string& light, const std::vector<Bag>& bags);
Command set_counterweight(const std::string& light, const Counterweight& counterweight);

/// Replaces the whole list of meter points, or of measured readings.
Command set_meter_points(const std::string& label, const std::vector<MeterPoint>& points);
Command set_measured(const std::string& label, const std::vector<MeasuredReading>& readings);
/// Calibrates each head whose light was measured, so that it gives what the meter read.
Command calibrate_heads(const Set& set, const MeasuredTable& measured);

/// Puts another support from the catalogue under a light at the same place, keeping height, arm
/// posture and bags where the new one allows them.
Command change_support(const Light& light, const CatalogueEntry<Support>& entry);

} // namespace keystead::ui
