/** The API reference in the pages' ink and accent: the viewer's own colors are too pale to read. */
export const REFERENCE_STYLES = `
.swagger-ui .info .title small { background: #4c4c58; }
.swagger-ui .info .title small.version-stamp { background: #45349e; }
.swagger-ui .info .link, .swagger-ui .info .link .url, .swagger-ui .info a { color: #45349e; }
.swagger-ui .btn.authorize { color: #45349e; border-color: #45349e; }
.swagger-ui .btn.authorize svg { fill: #45349e; }
.swagger-ui .btn.execute { background: #45349e; border-color: #45349e; }
.swagger-ui .opblock[class] { background: #f3f3f6; border-color: #7d7d89; }
.swagger-ui .opblock[class] .opblock-summary { border-color: #7d7d89; }
.swagger-ui .opblock[class] .opblock-summary-method { background: #15151a; }
.swagger-ui .opblock[class] .tab-header .tab-item.active h4 span::after { background: #15151a; }
.swagger-ui .json-schema-2020-12-expand-deep-button, .swagger-ui .json-schema-2020-12__attribute--muted { color: #4c4c58; }
`;
