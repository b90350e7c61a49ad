// A whole state of the set as one command: what taking a kept state back is made of.
#pragma once

#include "engine/edit/command.h"

#include <string>

namespace keystead {

/// Makes `now` into `wanted`: a batch of the document's top parts that differ, none where the two
/// are the same.
Batch become(const Set& now, const Set& wanted, std::string label);

} // namespace keystead
