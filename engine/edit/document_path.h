// Addresses inside the document, as error messages write them:
// `lights[key].support.bags[0].mass_kg`. Lights, panels and props are named by id, or by number
// where no id matches.
#pragma once

#include "sim/base/result.h"
#include "sim/set/set_json.h"

#include <string>
#include <string_view>
#include <vector>

namespace keystead {

/// One step of a path: a field, then what stands in its brackets (ids or numbers).
struct PathStep {
    std::string field;
    std::vector<std::string> brackets;
};

Result<std::vector<PathStep>> parse_path(std::string_view path);

/// Puts `value` at `path`. Null at a list's entry removes it. Empty brackets append, `lights[]`, as
/// does the number one past the end where no entry is called that.
/// The document is unchanged when a problem is returned.
Outcome put_value(Json& document, const std::string& path, const Json& value);

/// The id of a list's entry; empty where it has none that is a text.
std::string id_of(const Json& entry);

/// `lights[2].aim` as `lights[key].aim`, with the ids of `document`.
std::string with_ids(const std::string& path, const Json& document);

} // namespace keystead
