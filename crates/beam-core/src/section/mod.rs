//! Geometry and stiffness of cross-sections: hollow tubes and laminates.
