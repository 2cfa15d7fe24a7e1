import { useEffect, useRef, useState } from 'react';

/** Tells the files that are dropped anywhere on the page; true while some are held over it. */
export function useDropped(told: (files: File[]) => void): boolean {
  const [isOver, setOver] = useState(false);
  const tell = useRef(told);
  useEffect(() => {
    tell.current = told;
  });
  useEffect(() => {
    const over = (event: DragEvent) => {
      if (event.dataTransfer?.types.includes('Files') !== true) return;
      // Otherwise the browser would leave the page for the file.
      event.preventDefault();
      setOver(true);
    };
    const left = (event: DragEvent) => {
      if (event.relatedTarget === null) setOver(false);
    };
    const drop = (event: DragEvent) => {
      event.preventDefault();
      setOver(false);
      tell.current([...(event.dataTransfer?.files ?? [])]);
    };
    window.addEventListener('dragover', over);
    window.addEventListener('dragleave', left);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', over);
      window.removeEventListener('dragleave', left);
      window.removeEventListener('drop', drop);
    };
  }, []);
  return isOver;
}
