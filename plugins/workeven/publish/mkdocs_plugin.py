"""The way into MkDocs: options and events. What they do is done elsewhere.

Takes     MkDocs' events.
Gives     ``WorkevenPlugin``.
Problems  all, as one message that stops the build before MkDocs writes a byte.
From      design.md, "How a page reaches MkDocs" and "A build is all or nothing".

Everything is proven and rendered in ``on_pre_build``; later events hand over what is ready. MkDocs
writes into a folder beside the published one, and the last event puts it in place. Under ``mkdocs
serve`` nothing is swapped and nothing stops: problems are printed and shown as pages.
"""

from __future__ import annotations

import logging
import os
import sys
from html import escape
from pathlib import Path
from typing import Literal
from urllib.parse import urlsplit

from mkdocs.config import config_options as options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, TableOfContents
from mkdocs.utils import CountHandler
from mkdocs.utils.templates import TemplateContext

from workeven.publish import assets, build_list, edition, manifest, output, policy
from workeven.publish.cached import Cache, cache
from workeven.publish.collection import Address, Attachment, RenderedPage
from workeven.publish.lessons import lessons
from workeven.publish.packed import Packed, packed
from workeven.publish.pages.choices import marked
from workeven.publish.pages.views import TITLE_ANCHOR, Entry

#: Templates that stand in the place of the theme's.
TEMPLATES = Path(__file__).parent / "theme" / "templates"
#: After the plugins that read or change pages (search reads the short Markdown), and after all that
#: write into the site.
LAST = -100
#: How much a word counts for search on a page of a pattern, and on one beside the patterns: a maker
#: who looks for a stitch looks for what to make of it, then for what it is, and prose has 1.
AHEAD, BEHIND = 4, 0.1

NOBODY_COUNTS = (
    "mkdocs.yml has `analytics` under `extra`, and browsers are told not to load it: pages here "
    "tell nobody who reads them. Leave it out."
)

log = get_plugin_logger("workeven")


class WorkevenConfig(Config):  # type: ignore[no-untyped-call]  # MkDocs is partly untyped
    """Where patterns are read from, and where their pages stand in the site.

    ``figures``: whether a file beside each page says where its figures come from; ``check_pages``:
    whether there is a page for each problem that a check can find; ``cache``: whether what has not
    changed since a build before is taken from there, unless the user's own machine says otherwise.
    """

    patterns = options.Type(str, default="patterns")
    address = options.Type(str, default="patterns")
    figures = options.Type(bool, default=False)
    check_pages = options.Type(bool, default=False)
    cache = options.Type(bool, default=True)


class WorkevenPlugin(BasePlugin[WorkevenConfig]):  # type: ignore[no-untyped-call]  # as above
    """Publishes a collection of patterns, or nothing."""

    def __init__(self) -> None:
        self._serving = False
        self._pages: dict[str, RenderedPage] = {}
        self._attachments: tuple[Attachment, ...] = ()
        self._photographs = False
        self._published: str | None = None
        self._staging: Path | None = None
        self._hosts: dict[str, str] = {}
        self._all = ""
        self._shown = ""

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Learn whether this is a preview; a site that is new in parts is never published."""
        self._serving = command == "serve"
        if dirty and not self._serving:
            raise Abort("A site is built whole or not at all: leave out --dirty.")

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Put our theme parts behind the site's own and before the theme's."""
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, str(TEMPLATES))
        config.extra_css.insert(0, assets.STYLE_FILE)
        config.extra_javascript.insert(0, _deferred(assets.SCRIPT_FILES["other"]))
        return config

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Prove and render everything, or stop here."""
        ending = "" if config.use_directory_urls else "index.html"
        address = Address(
            folder=self.config.address.strip("/"), ending=ending, site=config.site_url or ""
        )
        self._all = f"{address.folder}/{ending}"
        try:
            folder = self._folder(config)
            kept = self._cache(folder, config)
            if self._serving:
                made = edition.preview(folder, address, cache=kept)
            else:
                made = edition.published(folder, address, figures=self.config.figures, cache=kept)
                self._stage(config)
        except (edition.Refused, output.OutputFault) as refusal:
            raise Abort(str(refusal)) from refusal
        told = lessons(address) if self.config.check_pages else ()
        self._pages = {page.source: page for page in (*made.publication.pages, *told)}
        self._attachments = made.publication.attachments
        self._photographs = any(one.path.endswith(".webp") for one in self._attachments)
        self._tell(made)

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the pages and what lies beside them."""
        there = {file.dest_uri for file in files}
        for page in tuple(self._pages.values()):
            if page.beside and f"{page.source.removesuffix('md')}html" in there:
                del self._pages[page.source]  # a studio's own stands in the place of ours
                continue
            inclusion = InclusionLevel.UNDEFINED if page.in_menu else InclusionLevel.NOT_IN_NAV
            self._add(files, config, page.source, page.markdown, inclusion)
        for one in self._attachments:
            made = one.packed
            if one.path.endswith(".html"):  # a whole page, which no event hands over later
                made = packed(self._guarded(made.text(), one.path, config))
            self._add(files, config, one.path, made, InclusionLevel.NOT_IN_NAV)
        self._attachments = ()
        for path, content in (
            *assets.files(),
            assets.later(),
            (assets.WORKER_FILE, assets.worker()),
            *assets.schemas(),
            *manifest.files(config.site_name, self._all),
        ):
            if not files.get_file_from_path(path):  # a studio's own stands in the place of ours
                files.append(File.generated(config, path, content=content))
        return files

    def on_page_markdown(
        self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files
    ) -> str:
        """Give a page of ours its title and description; the theme prints them as they are."""
        del files
        if rendered := self._pages.get(page.file.src_uri):
            page.meta["title"] = escape(rendered.title)
            page.meta["description"] = escape(rendered.description)
            page.meta["hide"] = _hidden(rendered, page, config)
            page.meta["search"] = {
                "boost": BEHIND if rendered.beside else AHEAD,
                "exclude": not rendered.searched,
            }
        return markdown

    @event_priority(LAST)
    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Put the finished HTML in the place of the short Markdown that search has read."""
        del config, nav
        if rendered := self._pages.get(page.file.src_uri):
            page.content = self._shown = rendered.html
            page.toc = _table_of_contents(rendered)
        return context

    @event_priority(LAST)
    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Add what belongs in the head; let go of the HTML, which MkDocs would keep to the end."""
        if rendered := self._pages.pop(page.file.src_uri, None):
            page.content, head = "", rendered.head
            output = _headed(output, rendered.kind, head)
            parts, self._shown = (self._shown, head), ""
            known = zip(parts, rendered.asks, strict=True) if rendered.asks else ()
            return self._guarded(output, page.file.src_uri, config, *known)
        return self._guarded(output, page.file.src_uri, config)

    @event_priority(LAST)
    def on_post_template(self, output: str, *, template_name: str, config: MkDocsConfig) -> str:
        """Pages of the theme's own, such as that of an unknown address, are guarded too."""
        if not template_name.endswith(".html"):
            return output
        return self._guarded(output, template_name, config)

    @event_priority(LAST)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Put the finished site in the place of the published one, after the last check."""
        if self._staging is None or self._published is None:
            return
        for host, page in self._hosts.items():
            log.warning(policy.told(host, page, os.path.relpath(config.docs_dir)))
        if config.extra.get("analytics"):
            log.warning(NOBODY_COUNTS)
        if config.strict and (warnings := _warnings()):
            raise Abort(f"{warnings} under --strict. {edition.NOT_BUILT}")
        staging, self._staging = self._staging, None
        config.site_dir = self._published
        try:
            output.settle(staging)
            output.put(staging, build_list.LIST_FILE, self._listed(staging, config))
            output.swap_in(staging, Path(self._published))
        except output.OutputFault as fault:
            raise Abort(str(fault)) from fault
        except OSError as fault:
            output.discard(staging)
            raise Abort(f"{fault}. {edition.NOT_BUILT}") from fault

    def on_build_error(self, *, error: Exception) -> None:
        """Leave nothing behind of a site that did not come about."""
        del error
        self.on_shutdown()

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: object
    ) -> LiveReloadServer:
        """Rebuild when a pattern is saved."""
        del builder
        server.watch(self._folder(config))
        return server

    def on_shutdown(self) -> None:
        """Leave nothing behind when the build was stopped by hand."""
        if self._staging is not None:
            output.discard(self._staging)
            self._staging = None

    def _listed(self, staging: Path, config: MkDocsConfig) -> str:
        """The list of all files, and the versions of what they were made with."""
        versions = build_list.made_with(config.plugins, config.theme.name or "")
        if self._photographs:
            from workeven.publish import photographs  # Pillow, which few patterns ask for

            versions |= photographs.written_by()
        return build_list.written(output.digests(staging), versions)

    def _guarded(
        self,
        html: str,
        page: str,
        config: MkDocsConfig,
        *known: tuple[str, policy.Asks],
    ) -> str:
        """The page with its policy; a preview has none: MkDocs adds a script that reloads it.

        ``known`` is what parts of the page were found to ask for when they were made.
        """
        if self._serving:
            return html
        found = policy.asks(html, *known)
        own = urlsplit(config.site_url or "").netloc
        for host in found.hosts:
            if host != own:
                self._hosts.setdefault(host, page)
        return policy.guarded(html, found)

    def _folder(self, config: MkDocsConfig) -> str:
        """The folder of the patterns, seen from mkdocs.yml, named as a person here would."""
        folder = Path(config.config_file_path).parent / self.config.patterns
        near = os.path.relpath(folder)
        return str(folder) if near.startswith(os.pardir) else near

    def _cache(self, patterns: str, config: MkDocsConfig) -> Cache | None:
        """What builds before have kept; None where nothing is to be, or can be."""
        if not self.config.cache:
            return None
        found = cache(os.environ, apart=(patterns, config.docs_dir, config.site_dir))
        if isinstance(found, Cache):
            return found
        if found:
            log.info(found)
        return None

    def _stage(self, config: MkDocsConfig) -> None:
        """Let MkDocs write beside the published site."""
        self._published = config.site_dir
        self._staging = output.staging_beside(Path(config.site_dir))
        config.site_dir = str(self._staging)

    def _tell(self, made: edition.Edition) -> None:
        """Advice, and in a preview what would stop a build; not counted as MkDocs' warnings."""
        for advice in made.advice():
            log.info(advice)
        if faults := made.faults():
            sys.stderr.write(f"{faults}\n")

    @staticmethod
    def _add(
        files: Files, config: MkDocsConfig, path: str, content: str | Packed, level: InclusionLevel
    ) -> None:
        if files.get_file_from_path(path):
            raise Abort(
                f"{path} in {os.path.relpath(config.docs_dir)} stands where workeven puts a page "
                "of its own. Rename it, or give the patterns another address in mkdocs.yml."
            )
        if isinstance(content, Packed):
            files.append(PackedFile.of(content, config, path, level))
        else:
            files.append(File.generated(config, path, content=content, inclusion=level))


class PackedFile(File):
    """A file that MkDocs writes, unpacked when it is asked for or written, and not kept so."""

    packed: Packed

    @classmethod
    def of(
        cls, content: Packed, config: MkDocsConfig, path: str, inclusion: InclusionLevel
    ) -> PackedFile:
        """A file that stands in no folder."""
        file = cls.generated(config, path, content=b"", inclusion=inclusion)
        assert isinstance(file, cls)  # MkDocs makes what it is asked of, and tells only of a File
        file.packed = content
        return file

    @property
    def content_bytes(self) -> bytes:
        """What is in it."""
        return self.packed.whole()

    @content_bytes.setter
    def content_bytes(self, value: bytes) -> None:
        self.packed = packed(value)

    @property
    def content_string(self) -> str:
        """The same as a text."""
        return self.packed.text()

    @content_string.setter
    def content_string(self, value: str) -> None:
        self.packed = packed(value)

    def copy_file(self, dirty: bool = False) -> None:  # noqa: FBT001, FBT002, MkDocs calls it so
        """Write it, without keeping it unpacked."""
        del dirty
        file = Path(self.abs_dest_path)
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(self.content_bytes)


def _deferred(path: str) -> options.ExtraScriptValue:
    """A script that waits until the page is read."""
    script = options.ExtraScriptValue(path)
    script.defer = True
    return script


def _headed(output: str, kind: assets.Kind, own: str) -> str:
    """A page of ours with its own head, and the script of its kind in the place of any page's."""
    first = assets.first(kind)
    head = f"{own}<script>{first}</script>\n" if first else own
    whole = output.replace("</head>", f"{head}</head>", 1)
    any_page, of_kind = assets.SCRIPT_FILES["other"], assets.SCRIPT_FILES[kind]
    return whole.replace(f'{any_page}" defer', f'{of_kind}" defer', 1)


def _hidden(rendered: RenderedPage, page: Page, config: MkDocsConfig) -> list[str]:
    """Side columns that a page does without, so that rows have room.

    One beside the patterns that the studio has put among pages of prose is shown as these are.
    """
    tabs = "navigation.tabs" in (config.theme.get("features") or [])
    among = rendered.beside and page.parent is not None
    return ["navigation"] * (tabs and not among) + ["toc"] * (not rendered.contents)


def _table_of_contents(page: RenderedPage) -> TableOfContents:
    """The headings as MkDocs wants them; the theme prints their titles as they are."""
    top = AnchorLink(escape(page.title), TITLE_ANCHOR, 1)
    top.children = [_anchor_link(entry, 2) for entry in page.contents]
    return TableOfContents([top])


def _anchor_link(entry: Entry, level: int) -> AnchorLink:
    link = AnchorLink(marked(escape(entry.title)), entry.anchor, level)
    link.children = [_anchor_link(below, level + 1) for below in entry.below]
    return link


def _warnings() -> str:
    """What MkDocs has counted so far, such as ``2 warnings``, or ""."""
    handlers = logging.getLogger("mkdocs").handlers
    counters = (handler for handler in handlers if isinstance(handler, CountHandler))
    counts = [count for counter in counters for count in counter.get_counts()]
    return ", ".join(f"{number} {level.lower()}{'s' * (number > 1)}" for level, number in counts)
