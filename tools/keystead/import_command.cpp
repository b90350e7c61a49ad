// keystead import: say what a mesh file holds; with unit and up axis stated, put it into a set.
#include "sim/set/field_rules.h"
#include "sim/set/set_io.h"
#include "sim/studio/file_paths.h"
#include "sim/studio/taken_in.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"
#include "tools/keystead/import_report.h"

#include <cstdio>
#include <filesystem>
#include <utility>

namespace keystead {

namespace {

namespace fs = std::filesystem;

bool is_stated(const ImportArguments& arguments) {
    return !arguments.unit.empty() && !arguments.up.empty();
}

int put_into_set(const ImportArguments& arguments, const ImportReport& report) {
    std::optional<Set> set = load_or_complain(arguments.into);
    if (!set) return exit_code::input;
    const std::string path =
        path_in_set(arguments.file, fs::absolute(arguments.into).parent_path());
    if (arguments.as == "prop") {
        Prop prop;
        prop.id = free_prop_id(*set);
        prop.path = path;
        prop.unit = report.unit;
        prop.up = report.up;
        set->props.push_back(prop);
    } else {
        SubjectFile file;
        file.path = path;
        file.unit = report.unit;
        file.up = report.up;
        file.part = value_of<PersonPart>(report.part)
                        .value_or(part_shown(report.landmarks, report.low_m, report.guess,
                                             report.unit, report.up));
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
