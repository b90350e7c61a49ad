// keystead import: say what a mesh file holds; with unit and up axis stated, put it into a set.
#include "sim/set/field_rules.h"
#include "sim/set/set_io.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"
#include "tools/keystead/import_report.h"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <utility>

namespace keystead {

namespace {

namespace fs = std::filesystem;

bool is_stated(const ImportArguments& arguments) {
    return !arguments.unit.empty() && !arguments.up.empty();
}

/// By how much hangs below the chin, in heights of the head; a standing figure has five (a child)
/// to seven. Where no face was found, what the offers take it for.
PersonPart part_of(const ImportReport& report) {
    constexpr double most_neck = 0.6, most_bust = 4.0; // our own judgement
    if (const auto stated = value_of<PersonPart>(report.part)) return *stated;
    const HeadLandmarks& face = report.landmarks;
    if (face.chin && face.top) {
        const double chin = face.chin->point_m.y, head = face.top->point_m.y - chin;
        const double below = (chin - report.low_m) / std::max(head, 1e-3);
        return below < most_neck   ? PersonPart::head
               : below < most_bust ? PersonPart::bust
                                   : PersonPart::figure;
    }
    for (const UnitOffer& offer : report.guess.offers)
        if (offer.unit == report.unit && offer.up == report.up) return offer.part;
    return PersonPart::head;
}

/// Relative where the file lies below the set's folder, so that both can move together.
std::string path_in_set(const std::string& file, const std::string& set) {
    std::error_code failed;
    const fs::path whole = fs::weakly_canonical(file, failed);
    const fs::path folder = fs::weakly_canonical(fs::absolute(set), failed).parent_path();
    const fs::path relative = whole.lexically_relative(folder);
    const bool below = !relative.empty() && *relative.begin() != "..";
    return (below ? relative : whole).string();
}

std::string free_id(const Set& set) {
    const auto taken = [&](const std::string& id) {
        const auto has = [&](const auto& list) {
            return std::any_of(list.begin(), list.end(),
                               [&](const auto& one) { return one.id == id; });
        };
        return has(set.lights) || has(set.panels) || has(set.props);
    };
    for (int i = 1;; ++i)
        if (const std::string id = "prop-" + std::to_string(i); !taken(id)) return id;
}

int put_into_set(const ImportArguments& arguments, const ImportReport& report) {
    std::optional<Set> set = load_or_complain(arguments.into);
    if (!set) return exit_code::input;
    const std::string path = path_in_set(arguments.file, arguments.into);
    if (arguments.as == "prop") {
        Prop prop;
        prop.id = free_id(*set);
        prop.path = path;
        prop.unit = report.unit;
        prop.up = report.up;
        set->props.push_back(prop);
    } else {
        SubjectFile file;
        file.path = path;
        file.unit = report.unit;
        file.up = report.up;
        file.part = part_of(report);
        set->subject.file = file;
    }
    Outcome failed = validate(*set);
    if (!failed) failed = save_set(*set, arguments.into);
    if (failed) {
        complain(failed->message());
        return exit_code::input;
    }
    const std::string what =
        arguments.as == "prop"
            ? "one of its props"
            : "its subject (" + std::string(word_of(set->subject.file->part)) + ")";
    std::printf("%s: %s is now %s, read in %s with %s up\n", arguments.into.c_str(), path.c_str(),
                what.c_str(), arguments.unit.c_str(), arguments.up.c_str());
    if (arguments.as == "subject") std::printf("%s\n", report.landmarks.remark.c_str());
    return exit_code::done;
}

} // namespace

int import_command(const ImportArguments& arguments) {
    Result<ImportedMesh> imported = import_mesh(arguments.file);
    if (!imported) {
        complain(imported.problem().message());
        return exit_code::input;
    }
    ImportReport report;
    report.file = arguments.file;
    report.imported = std::move(imported).value();
    report.guess = guess_units(report.imported.bounds, report.imported.format);
    report.stated = is_stated(arguments);
    const UnitOffer& best = report.guess.offers.front();
    report.unit = best.unit, report.up = best.up;
    // Words are checked where the command line is read.
    if (report.stated) {
        report.unit = value_of<LengthUnit>(arguments.unit).value_or(best.unit);
        report.up = value_of<UpAxis>(arguments.up).value_or(best.up);
    }
    const Mesh upright = convert(report.imported.mesh, report.unit, report.up);
    report.low_m = lowest_m(upright);
    report.landmarks = find_head_landmarks(upright);
    report.part = arguments.part;
    const std::string text = arguments.json ? import_json(report) : import_text(report);
    if (arguments.into.empty()) {
        std::fwrite(text.data(), 1, text.size(), stdout);
        return exit_code::done;
    }
    // Offered, never taken silently.
    if (!report.stated) {
        std::fwrite(text.data(), 1, text.size(), stdout);
        complain("state --unit and --up to put it into " + arguments.into +
                 "; the set is unchanged");
        return exit_code::input;
    }
    return put_into_set(arguments, report);
}

} // namespace keystead
