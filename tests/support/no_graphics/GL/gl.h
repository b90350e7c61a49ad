// Found first by sim and its tests, so that a graphics header cannot creep into them.
#error "sim is plain C++: no graphics, window or user-interface header belongs here"
